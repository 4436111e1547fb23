// A material written out in full, as [material.id] of a scene.

#include <algorithm>
#include <array>
#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/material/figures.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/scene/version.hpp"
#include "foretone/scene/version.hpp"
#include "joint_table.hpp"
#include "material_table.hpp"

namespace foretone::scene {
namespace {
using material::Material;

// Six significant digits: below a thousandth of any color difference that can be seen.
std::string digits(double v) { return base::toml_float(v, 6); }

std::string provenance(const material::Provenance& from, const std::string& fitted) {
    const bool ours = from.mark == material::Mark::fitted && from.source.empty();
    return "mark = " + base::toml_quoted(std::string(word(from.mark))) +
           ", source = " + base::toml_quoted(ours ? fitted : from.source);
}

std::string figure_text(const material::Figure& f, const std::string& fitted) {
    return "{ value = " + digits(f.value) + ", sd = " + digits(f.sd) + ", " + provenance(f.from, fitted) + " }\n";
}

std::string spectrum_text(const Material& m, const material::FigureAt& at, const std::string& fitted) {
    const auto& s = *at.spectrum;
    std::string out = "start_nm = 380\nstep_nm = 5\nvalues = [";
    for (std::size_t i = 0; i < s.values.size(); ++i)
        out += (i % 12 == 0 ? "\n    " : " ") + digits(std::clamp(s.values[i], at.low, at.high)) + ",";
    out +=
        "\n]\nsd = " + digits(s.sd) + "\nmark = " + base::toml_quoted(std::string(word(s.from.mark))) + "\nsource = ";
    out += base::toml_quoted(s.from.mark == material::Mark::fitted && s.from.source.empty() ? fitted : s.from.source) +
           "\n";
    if (const auto* wood = std::get_if<material::Wood>(&m.data))
        out += "geometry = " + base::toml_quoted(geometry_word(wood->geometry)) + "\n";
    return out;
}

std::string pores_text(const material::Grain& grain, const std::string& fitted) {
    const auto word = material::pore_words[static_cast<std::size_t>(grain.pores)];
    return "pores = { value = " + base::toml_quoted(std::string(word)) + ", " + provenance(grain.pores_from, fitted) +
           " }\n";
}

// A powder whose strength is told by the stock it is in: its own spread would count it twice.
Material strength_fixed(Material dye, const std::string& stock) {
    auto& data = std::get<material::Dye>(dye.data);
    for (auto* from : {&data.molar_absorptivity.from, &data.purity.from})
        from->source += "; no spread of its own: it is in the strength of " + stock;
    data.molar_absorptivity.sd = data.purity.sd = 0;
    return dye;
}

std::string treatment_text(const material::Treatment& t) {
    constexpr std::array<const char*, 4> needs = {"nothing", "tannin", "dye", "iron"};
    std::string out = std::string("needs = \"") + needs[static_cast<std::size_t>(t.needs)] + "\"\n";
    if (!t.carrier.empty()) out += "carrier = " + base::toml_quoted(t.carrier) + "\n";
    if (t.leaves_iron) out += "leaves = \"iron\"\n";
    if (!t.neutralize.empty()) out += "neutralize = " + base::toml_quoted(t.neutralize) + "\n";
    return out;
}

std::string material_text(const std::string& id, const std::string& like, Material m, const std::string& fitted) {
    const auto all = material::figures(m);
    std::string out = "\n[material." + id + "]\nkind = " + base::toml_quoted(std::string(word(m.kind))) +
                      "\nname = " + base::toml_quoted(m.name + ", own boards") + "\n";
    if (!like.empty()) out += "like = " + base::toml_quoted(like) + "\n";
    if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        out += "carrier = " + base::toml_quoted(stock->carrier) + "\nmix = [\n";
        for (const auto& load : stock->mix)
            out += "    { use = " + base::toml_quoted(load.use) + ", g_per_l = " + digits(load.g_per_l) + " },\n";
        out += "]\n";
    }
    if (const auto* colored = std::get_if<material::Colored>(&m.data)) {
        out += "carrier = " + base::toml_quoted(colored->carrier) + "\nbinder = " + base::toml_quoted(colored->binder) +
               "\nmix = [\n";
        for (const auto& load : colored->mix)
            out += "    { use = " + base::toml_quoted(load.use) + ", g_per_l = " + digits(load.g_per_l) + " },\n";
        out += "]\n";
    }
    if (const auto* treatment = std::get_if<material::Treatment>(&m.data)) out += treatment_text(*treatment);
    if (const auto* dye = std::get_if<material::Dye>(&m.data)) {
        out += "carriers = [";
        for (std::size_t i = 0; i < dye->carriers.size(); ++i)
            out += (i ? ", " : "") + base::toml_quoted(dye->carriers[i]);
        out += "]\n";
    }
    if (const auto* wood = std::get_if<material::Wood>(&m.data); wood && !wood->ages_as.empty())
        out += "ages_as = " + base::toml_quoted(wood->ages_as) + "\n";
    if (const auto* binder = std::get_if<material::Binder>(&m.data); binder && !binder->carrier.empty())
        out += "carrier = " + base::toml_quoted(binder->carrier) + "\n";
    for (const auto& f : all)
        if (f.figure && f.key.find('.') == std::string::npos) out += f.key + " = " + figure_text(*f.figure, fitted);
    std::string table;
    for (const auto& f : all) {
        const auto dot = f.key.find('.');
        if (f.figure && dot != std::string::npos) {
            if (table != f.key.substr(0, dot)) {
                out += "\n[material." + id + "." + (table = f.key.substr(0, dot)) + "]\n";
                if (const auto* wood = std::get_if<material::Wood>(&m.data); wood && wood->grain)
                    out += pores_text(*wood->grain, fitted);
            }
            out += f.key.substr(dot + 1) + " = " + figure_text(*f.figure, fitted);
        }
        if (f.spectrum) out += "\n[material." + id + "." + f.key + "]\n" + spectrum_text(m, f, fitted);
    }
    return out;
}

}  // namespace

std::string fitted_toml(const BoardsFile& boards, const learn::FitResult& result) {
    const std::string count = std::to_string(boards.question.readings.size());
    const std::string source =
        "fitted to " + count + " readings of step boards (" + boards.by + "); sd: one standard error";
    std::string out = std::string("# written by foretone ") + version +
                      "\n# Materials fitted to step boards: " + base::toml_quoted(base::one_line(boards.title)) +
                      ".\n# Use them in a scene: materials = [\"this-file.toml\"]\nformat = 1\ntitle = " +
                      base::toml_quoted(base::one_line(boards.title)) + "\n";
    const auto changed = [&](const std::string& id) {
        return std::find(result.changed.begin(), result.changed.end(), id) != result.changed.end();
    };
    // What the bench needs besides (order, waits, cautions) comes with the library's entry.
    const auto like = [&](const std::string& id) { return boards.own.count(id) ? std::string() : id; };
    for (const auto& id : result.changed) {
        Material m = result.materials.at(id);
        std::string powders;
        if (auto* stock = std::get_if<material::Stock>(&m.data))
            for (auto& load : stock->mix) {
                if (changed(load.use))
                    load.use = boards.written_as(load.use);
                else if (facts(result.materials.at(load.use).kind).dissolves) {
                    const std::string own = boards.written_as(id) + "-" + load.use;
                    powders +=
                        material_text(own, like(load.use),
                                      strength_fixed(result.materials.at(load.use), boards.written_as(id)), source);
                    load.use = own;
                }
            }
        out += material_text(boards.written_as(id), like(id), m, source) + powders;
    }
    appearance::JointTable joint = result.joint;
    joint.title = base::one_line(boards.title);
    return out + joint_toml(joint, [&](const std::string& id) { return changed(id) ? boards.written_as(id) : id; });
}

}  // namespace foretone::scene
