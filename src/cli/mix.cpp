// `mix`: each sub-command hands its amounts, as written, to the job room.

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "foretone/base/text.hpp"
#include "foretone/job/mix.hpp"
#include "foretone/schedule/spelling.hpp"
#include "answer.hpp"
#include "terminal.hpp"
#include "tools.hpp"

namespace foretone::cli {
namespace {
using schedule::Dimension;

/// All that any sub-command can be told.
struct MixOptions : Common {
    job::MixQuestion question;
    job::PotQuestion pot;
    std::string scene, scale, syringe;
};

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

int pot(const MixOptions& o) {
    const auto lib = library(o);
    const auto scene = scene::read_scene(o.scene, lib);
    auto q = o.pot;
    q.units = units_for(o, scene, q.area.empty() ? q.volume : q.area);
    q.tools = tools_of(o.scale, o.syringe, q.units);
    q.tools_text = tools_text(o.scale, o.syringe, q.units);
    return give(job::mix_pot(scene, lib, q), o);
}

}  // namespace

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
    const auto sub = [&](const char* name, const char* help, auto run) {
        auto* s = verb->add_subcommand(name, help);
        s->fallthrough();
        const std::string where = std::string("mix ") + name;
        s->callback([options, run, where, &chosen] {
            chosen = [options, run, where] { return with_place(where, [&] { return run(*options); }); };
        });
        return s;
    };
    const auto arithmetic = [&](const char* name, const char* help, job::MixAnswer (*ask)(const job::MixQuestion&)) {
        return sub(name, help, [ask](const MixOptions& o) { return give(ask(o.question), o); });
    };
    auto& o = options->question;
    const auto densities = [&](CLI::App* s) {
        s->add_option("--resin-density", o.resin_density, "Density of the dry resin, g/mL (default 1.15)")
            ->check(finite());
        s->add_option("--alcohol-density", o.alcohol_density, "Density of the alcohol, g/mL (default 0.789)")
            ->check(finite());
    };
    auto* cut = arithmetic("cut", "A resin solution said in every way", job::mix_cut);
    cut->add_option("AMOUNT", o.amount, "As in '2lb/gal', '198g/L-solution', '23%w-resin'")->required();
    cut->add_option("--volume", o.volume, "Also what goes into so much solution");
    densities(cut);
    auto* thin = arithmetic("thin", "Alcohol to add to make one cut another", job::mix_thin);
    thin->add_option("FROM", o.amount, "The cut at hand, as '3lb/gal'")->required();
    thin->add_option("TO", o.to, "The cut wanted, as '1lb/gal'")->required();
    thin->add_option("--have", o.have, "For so much of the cut at hand");
    thin->add_option("--make", o.volume, "For so much of the cut wanted");
    densities(thin);
    auto* powder = arithmetic("powder", "A powder's strength: g/L, oz/qt, percent", job::mix_powder);
    powder->add_option("AMOUNT", o.amount, "As in '1oz/qt', '30g/L', '3%w/v', or '3%' of the weight")->required();
    powder->add_option("--volume", o.volume, "Also the powder for so much liquid");
    powder->add_option("--density", o.density, "Density of the liquid, g/mL (default 0.998)")->check(finite());
    auto* weigh = arithmetic("weigh", "Parts, drops and volumes to grams, and back", job::mix_weigh);
    weigh->add_option("AMOUNT", o.amount, "As in '20drops', '3parts', '15mL', '12g'")->required();
    weigh->add_option("--density", o.density, "Density of the liquid, g/mL (default 0.998)")->check(finite());
    weigh->add_option("--part", o.part, "What one part is, as '10mL'");
    auto* rungs = arithmetic("ladder", "A strength ladder: full, half, quarter, ...", job::mix_ladder);
    rungs->add_option("FULL", o.amount, "Strength of the first rung, as '30g/L'")->required();
    rungs->add_option("--rungs", o.rungs, "How many (default 5)");
    rungs->add_option("--ratio", o.ratio, "Each rung as a share of the one before (default 0.5)")->check(finite());
    rungs->add_option("--volume", o.volume, "How much of each (default 100mL)");
    auto* tint = arithmetic("tint", "Tint by weight into a finish", job::mix_tint);
    tint->add_option("TOTAL", o.amount, "Weight of tinted finish, as '1kg'")->required();
    tint->add_option("PERCENT", o.to, "Tint as a share of it, as '2%'")->required();
    auto* film = arithmetic("film", "A wet film: coverage and dry build", job::mix_film);
    film->add_option("WET", o.amount, "Wet film '4mil', or a coverage '400ft2/gal'")->required();
    film->add_option("--solids", o.percent, "Volume solids, as '30%': gives the dry build");
    auto* of_step =
        sub("pot", "A step of a scene scaled to an area or a pot, and rounded to what can be measured", pot);
    of_step->add_option("SCENE", options->scene, "Scene file (TOML)")->required();
    of_step->add_option("--finish", options->pot.finish, "Name of the finish (default: the first)");
    of_step->add_option("--step", options->pot.step, "Number of the step, from 1 (default 1)");
    auto* area = of_step->add_option("--area", options->pot.area,
                                     "Area to be finished, as '2.5m2' or '27ft2': all coats, loss included");
    of_step->add_option("--volume", options->pot.volume, "Size of the pot in place of the area, as '500mL'")
        ->excludes(area);
    add_tools(*of_step, options->scale, options->syringe);
}

}  // namespace foretone::cli
