// `mix`: each sub-command reads its amounts and hands the arithmetic to the schedule room.

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "foretone/base/text.hpp"
#include "foretone/schedule/spelling.hpp"
#include "mix_verbs.hpp"
#include "terminal.hpp"
#include "tools.hpp"

namespace foretone::cli {
namespace {
using schedule::Dimension;

int list_units(const Common& common) {
    nlohmann::ordered_json j;
    j["units"] = nlohmann::ordered_json::array();
    for (const auto& u : schedule::units())
        j["units"].push_back({{"unit", u.name},
                              {"of", schedule::dimension_words[static_cast<std::size_t>(u.dimension)]},
                              {"meaning", u.meaning}});
    put_json(common, j.dump(2) + "\n");
    if (!common.speaks()) return 0;
    std::vector<std::vector<std::string>> rows = {{"unit", "of", "meaning", "also written"}};
    for (const auto& u : schedule::units()) {
        std::string written;
        for (const auto& s : schedule::spellings())
            if (s.unit == u.name) written = base::replaced(s.written, ";", ", ");
        rows.push_back({std::string(u.name),
                        std::string(schedule::dimension_words[static_cast<std::size_t>(u.dimension)]),
                        std::string(u.meaning), written});
    }
    std::cout << table(rows, {false, false, false, false});
    return 0;
}

}  // namespace

int with_place(const std::string& where, const Verb& run) {
    try {
        return run();
    } catch (const schedule::Fault& f) {
        throw scene::InputError(f.id, {where}, f.what());
    } catch (const std::invalid_argument& e) {
        throw scene::InputError("amount-range", {where}, e.what());
    }
}

void add_mix(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<MixOptions>();
    auto* verb = app.add_subcommand(
        "mix", "Shop arithmetic: cuts, thinning, powders, ladders, tints, films, pots; every answer with its formula");
    verb->require_subcommand(0, 1);
    auto* units = verb->add_option("--units", options->units,
                                   "Alone: list every unit that is accepted; us or metric: units to print in")
                      ->expected(0, 1)
                      ->type_name("[us|metric]");
    add_common(*verb, *options);
    verb->callback([options, verb, units, &chosen] {
        if (!verb->get_subcommands().empty()) return;
        if (units->count() == 0) throw CLI::RequiredError("mix: one of its sub-commands, or --units,");
        chosen = [options] { return list_units(*options); };
    });
    const auto sub = [&](const char* name, const char* help, int (*run)(const MixOptions&)) {
        auto* s = verb->add_subcommand(name, help);
        s->fallthrough();
        const std::string where = std::string("mix ") + name;
        s->callback([options, run, where, &chosen] {
            chosen = [options, run, where] { return with_place(where, [&] { return run(*options); }); };
        });
        return s;
    };
    auto& o = *options;
    const auto densities = [&](CLI::App* s) {
        s->add_option("--resin-density", o.resin_density, "Density of the dry resin, g/mL (default 1.15)")
            ->check(finite());
        s->add_option("--alcohol-density", o.alcohol_density, "Density of the alcohol, g/mL (default 0.789)")
            ->check(finite());
    };
    auto* cut = sub("cut", "A resin solution said in every way", mix_cut);
    cut->add_option("AMOUNT", o.amount, "As in '2lb/gal', '198g/L-solution', '23%w-resin'")->required();
    cut->add_option("--volume", o.volume, "Also what goes into so much solution");
    densities(cut);
    auto* thin = sub("thin", "Alcohol to add to make one cut another", mix_thin);
    thin->add_option("FROM", o.amount, "The cut at hand, as '3lb/gal'")->required();
    thin->add_option("TO", o.to, "The cut wanted, as '1lb/gal'")->required();
    thin->add_option("--have", o.have, "For so much of the cut at hand");
    thin->add_option("--make", o.volume, "For so much of the cut wanted");
    densities(thin);
    auto* powder = sub("powder", "A powder's strength: g/L, oz/qt, percent", mix_powder);
    powder->add_option("AMOUNT", o.amount, "As in '1oz/qt', '30g/L', '3%w/v', or '3%' of the weight")->required();
    powder->add_option("--volume", o.volume, "Also the powder for so much liquid");
    powder->add_option("--density", o.density, "Density of the liquid, g/mL (default 0.998)")->check(finite());
    auto* weigh = sub("weigh", "Parts, drops and volumes to grams, and back", mix_weigh);
    weigh->add_option("AMOUNT", o.amount, "As in '20drops', '3parts', '15mL', '12g'")->required();
    weigh->add_option("--density", o.density, "Density of the liquid, g/mL (default 0.998)")->check(finite());
    weigh->add_option("--part", o.part, "What one part is, as '10mL'");
    auto* rungs = sub("ladder", "A strength ladder: full, half, quarter, ...", mix_ladder);
    rungs->add_option("FULL", o.amount, "Strength of the first rung, as '30g/L'")->required();
    rungs->add_option("--rungs", o.rungs, "How many (default 5)");
    rungs->add_option("--ratio", o.ratio, "Each rung as a share of the one before (default 0.5)")->check(finite());
    rungs->add_option("--volume", o.volume, "How much of each (default 100mL)");
    auto* tint = sub("tint", "Tint by weight into a finish", mix_tint);
    tint->add_option("TOTAL", o.amount, "Weight of tinted finish, as '1kg'")->required();
    tint->add_option("PERCENT", o.to, "Tint as a share of it, as '2%'")->required();
    auto* film = sub("film", "A wet film: coverage and dry build", mix_film);
    film->add_option("WET", o.amount, "Wet film '4mil', or a coverage '400ft2/gal'")->required();
    film->add_option("--solids", o.percent, "Volume solids, as '30%': gives the dry build");
    auto* pot =
        sub("pot", "A step of a scene scaled to an area or a pot, and rounded to what can be measured", mix_pot);
    pot->add_option("SCENE", o.scene, "Scene file (TOML)")->required();
    pot->add_option("--finish", o.finish, "Name of the finish (default: the first)");
    pot->add_option("--step", o.step, "Number of the step, from 1 (default 1)");
    auto* area =
        pot->add_option("--area", o.area, "Area to be finished, as '2.5m2' or '27ft2': all coats, loss included");
    pot->add_option("--volume", o.volume, "Size of the pot in place of the area, as '500mL'")->excludes(area);
    add_tools(*pot, o.scale, o.syringe);
}

}  // namespace foretone::cli
