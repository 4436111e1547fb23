#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "common.hpp"
#include "foretone/report/tool_json.hpp"
#include "foretone/base/number.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/scene/library_check.hpp"
#include "order_facts.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {
using Json = nlohmann::ordered_json;
using material::Material;

struct MaterialsOptions : Common {
    std::string show;
    bool check = false;
};

std::string value_text(const material::FigureAt& f) {
    if (f.figure) return base::shortest(f.figure->value);
    const auto& s = f.spectrum->values;
    double low = s[0], high = s[0];
    for (const double v : s) low = std::min(low, v), high = std::max(high, v);
    return fixed(low, high < 100 ? 3 : 0) + " … " + fixed(high, high < 100 ? 3 : 0);
}

std::string spread_text(const material::FigureAt& f) {
    if (f.figure) return base::shortest(f.figure->sd);
    return fixed(100 * f.spectrum->sd, 0) + " %";
}

Json figure_json(const material::FigureAt& f) {
    Json j;
    j["key"] = f.key;
    j["unit"] = f.unit;
    if (f.figure)
        j["value"] = f.figure->value;
    else
        j["value"] = {{"start_nm", spectral::grid_start_nm},
                      {"step_nm", spectral::grid_step_nm},
                      {"values", f.spectrum->values.values}};
    j["sd"] = f.sd();
    j["mark"] = material::word(f.from().mark);
    j["source"] = f.from().source;
    return j;
}

Json material_json(Material m) {
    Json j = {{"tool", report::tool_json()},
              {"id", m.id},
              {"kind", word(m.kind)},
              {"name", m.name},
              {"note", m.note},
              {"weakest", material::word(material::weakest(m))}};
    j["figures"] = Json::array();
    for (const auto& f : material::figures(m)) j["figures"].push_back(figure_json(f));
    if (const auto* wood = std::get_if<material::Wood>(&m.data); wood && wood->grain)
        j["pores"] = {{"value", material::pore_words[static_cast<std::size_t>(wood->grain->pores)]},
                      {"mark", material::word(wood->grain->pores_from.mark)},
                      {"source", wood->grain->pores_from.source}};
    j["order"] = order_json(m.order);
    if (const auto* stock = std::get_if<material::Stock>(&m.data))
        for (const auto& load : stock->mix) j["mix"].push_back({{"use", load.use}, {"g_per_l", load.g_per_l}});
    if (const auto* colored = std::get_if<material::Colored>(&m.data)) {
        j["carrier"] = colored->carrier;
        j["binder"] = colored->binder;
        for (const auto& load : colored->mix) j["mix"].push_back({{"use", load.use}, {"g_per_l", load.g_per_l}});
    }
    return j;
}

void print_material(Material m) {
    std::cout << m.id << " · " << word(m.kind) << " · " << m.name << "\n";
    if (!m.note.empty()) std::cout << m.note << "\n";
    if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        std::cout << "in one litre of " << stock->carrier << ":";
        for (const auto& load : stock->mix) std::cout << "  " << load.use << " " << fixed(load.g_per_l, 2) << " g";
        std::cout << "\n";
    }
    if (const auto* colored = std::get_if<material::Colored>(&m.data)) {
        std::cout << "in one litre, with " << colored->binder << " in " << colored->carrier << ":";
        for (const auto& load : colored->mix) std::cout << "  " << load.use << " " << fixed(load.g_per_l, 2) << " g";
        std::cout << "\n";
    }
    if (const auto* t = std::get_if<material::Treatment>(&m.data); t && !t->neutralize.empty())
        std::cout << "before anything goes over it: " << t->neutralize << "\n";
    if (const auto* dye = std::get_if<material::Dye>(&m.data)) {
        std::cout << "dissolves in:";
        for (const auto& c : dye->carriers) std::cout << " " << c;
        std::cout << "\n";
    }
    std::cout << "\n";
    for (const auto& f : material::figures(m)) {
        std::cout << "  " << left(f.key, 30) << " " << value_text(f) << (f.unit.empty() ? "" : " " + f.unit) << "   ± "
                  << spread_text(f) << "\n"
                  << "  " << left("", 30) << " " << material::word(f.from().mark) << ": " << f.from().source << "\n";
    }
    if (const auto* wood = std::get_if<material::Wood>(&m.data); wood && wood->grain)
        std::cout << "  " << left("grain.pores", 30) << " "
                  << material::pore_words[static_cast<std::size_t>(wood->grain->pores)] << "\n"
                  << "  " << left("", 30) << " " << material::word(wood->grain->pores_from.mark) << ": "
                  << wood->grain->pores_from.source << "\n";
    std::cout << order_text(m.order);
    std::cout << "\nrests on: " << material::word(material::weakest(m)) << "\n";
}

int list(const MaterialsOptions& options, const scene::Library& lib) {
    Json j;
    j["tool"] = report::tool_json();
    j["materials"] = Json::array();
    std::vector<std::vector<std::string>> rows = {{"id", "kind", "name", "rests on"}};
    for (const auto& row : material::kinds())
        for (const auto& id : lib.ids(row.kind)) {
            const auto m = lib.material(id);
            const std::string mark(material::word(material::weakest(m)));
            rows.push_back({id, std::string(word(m.kind)), m.name, mark});
            j["materials"].push_back({{"id", id}, {"kind", word(m.kind)}, {"name", m.name}, {"weakest", mark}});
        }
    j["lights"] = lib.lights();
    j["observers"] = lib.observers();
    put_json(options, j.dump(2) + "\n");
    if (!options.speaks()) return 0;
    std::cout << table(rows, {false, false, false, false}) << "\nlights:";
    for (const auto& id : lib.lights()) std::cout << " " << id;
    std::cout << "\nobservers:";
    for (const auto& id : lib.observers()) std::cout << " " << id;
    std::cout << "\n\n'foretone materials --show ID' prints every figure with its provenance\n";
    return 0;
}

int show(const MaterialsOptions& options, const scene::Library& lib) {
    const auto* entry = lib.find(options.show);
    if (entry && !entry->kind) {
        const auto comments = lib.comments(options.show);
        const Json j = {
            {"tool", report::tool_json()}, {"id", entry->id}, {"kind", entry->word()}, {"comments", comments}};
        put_json(options, j.dump(2) + "\n");
        if (!options.speaks()) return 0;
        std::cout << entry->id << " · " << entry->word() << "\n";
        for (const auto& line : comments) std::cout << "  " << line << "\n";
        return 0;
    }
    const auto m = lib.material(options.show);
    put_json(options, material_json(m).dump(2) + "\n");
    if (options.speaks()) print_material(m);
    return 0;
}

int check(const MaterialsOptions& options, const scene::Library& lib) {
    const auto result = scene::check_library(lib);
    for (const auto& p : result.problems) std::cerr << p.place.text() << ": " << p.text << " [" << p.id << "]\n";
    Json j = {{"tool", report::tool_json()},
              {"files", result.files},
              {"figures", result.figures},
              {"problems", result.problems.size()}};
    j["marks"] = Json::object();
    for (const auto& [mark, count] : result.marks) j["marks"][std::string(material::word(mark))] = count;
    put_json(options, j.dump(2) + "\n");
    if (options.speaks()) {
        std::cout << result.files << " files, " << result.figures << " figures, " << result.problems.size()
                  << " problems\n";
        for (const auto& [mark, count] : result.marks)
            std::cout << "  " << left(std::string(material::word(mark)), 10) << right(std::to_string(count), 5) << "\n";
    }
    return result.problems.empty() ? 0 : 1;
}

int run_materials(const MaterialsOptions& options) {
    const auto lib = library(options);
    if (options.check) return check(options, lib);
    return options.show.empty() ? list(options, lib) : show(options, lib);
}

}  // namespace

void add_materials(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<MaterialsOptions>();
    auto* verb = app.add_subcommand("materials", "List, show and check the material library, with provenance");
    auto* show = verb->add_option("--show", options->show,
                                  "Print one material, light or observer with where every figure comes from")
                     ->type_name("ID");
    verb->add_flag("--check", options->check, "Read every file of the library and report what is wrong")
        ->excludes(show);
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_materials(*options); }; });
}

}  // namespace foretone::cli
