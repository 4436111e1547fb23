// A material written out in full, as [material.id] of a scene.

#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>

#include "foretone/material/figures.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/scene/json.hpp"
#include "material_table.hpp"

namespace foretone::scene {
namespace {
using material::Material;

// Six significant digits: below a thousandth of any color difference that can be seen.
std::string digits(double v) {
    char buffer[64];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, v, std::chars_format::general, 6).ptr;
    std::string s(buffer, end);
    if (s.find_first_of(".en") == std::string::npos) s += ".0";
    return s;
}

std::string in_quotes(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (static_cast<unsigned char>(c) >= 0x20)
            out += c;
        else
            out += ' ';
    }
    return out + '"';
}

std::string provenance(const material::Provenance& from, const std::string& fitted) {
    const bool ours = from.mark == material::Mark::fitted && from.source.empty();
    return "mark = " + in_quotes(std::string(word(from.mark))) + ", source = " + in_quotes(ours ? fitted : from.source);
}

std::string figure_text(const material::Figure& f, const std::string& fitted) {
    return "{ value = " + digits(f.value) + ", sd = " + digits(f.sd) + ", " + provenance(f.from, fitted) + " }\n";
}

std::string spectrum_text(const Material& m, const material::FigureAt& at, const std::string& fitted) {
    const auto& s = *at.spectrum;
    std::string out = "start_nm = 380\nstep_nm = 5\nvalues = [";
    for (std::size_t i = 0; i < s.values.size(); ++i)
        out += (i % 12 == 0 ? "\n    " : " ") + digits(std::clamp(s.values[i], at.low, at.high)) + ",";
    out += "\n]\nsd = " + digits(s.sd) + "\nmark = " + in_quotes(std::string(word(s.from.mark))) + "\nsource = ";
    out += in_quotes(s.from.mark == material::Mark::fitted && s.from.source.empty() ? fitted : s.from.source) + "\n";
    if (const auto* wood = std::get_if<material::Wood>(&m.data))
        out += "geometry = " + in_quotes(geometry_word(wood->geometry)) + "\n";
    return out;
}

std::string pores_text(const material::Grain& grain, const std::string& fitted) {
    const auto word = material::pore_words[static_cast<std::size_t>(grain.pores)];
    return "pores = { value = " + in_quotes(std::string(word)) + ", " + provenance(grain.pores_from, fitted) + " }\n";
}

// A powder whose strength is told by the stock it is in: its own spread would count it twice.
Material strength_told(Material dye, const std::string& stock) {
    auto& data = std::get<material::Dye>(dye.data);
    for (auto* from : {&data.molar_absorptivity.from, &data.purity.from})
        from->source += "; no spread of its own: it is in the strength of " + stock;
    data.molar_absorptivity.sd = data.purity.sd = 0;
    return dye;
}

std::string material_text(const std::string& id, const std::string& like, Material m, const std::string& fitted) {
    const auto all = material::figures(m);
    std::string out = "\n[material." + id + "]\nkind = " + in_quotes(m.kind) +
                      "\nname = " + in_quotes(m.name + ", own boards") + "\n";
    if (!like.empty()) out += "like = " + in_quotes(like) + "\n";
    if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        out += "carrier = " + in_quotes(stock->carrier) + "\nmix = [\n";
        for (const auto& load : stock->mix)
            out += "    { use = " + in_quotes(load.use) + ", g_per_l = " + digits(load.g_per_l) + " },\n";
        out += "]\n";
    }
    if (const auto* dye = std::get_if<material::Dye>(&m.data)) {
        out += "carriers = [";
        for (std::size_t i = 0; i < dye->carriers.size(); ++i) out += (i ? ", " : "") + in_quotes(dye->carriers[i]);
        out += "]\n";
    }
    if (const auto* binder = std::get_if<material::Binder>(&m.data); binder && !binder->carrier.empty())
        out += "carrier = " + in_quotes(binder->carrier) + "\n";
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

nlohmann::ordered_json lab_json(const color::Lab& c) { return {c.l, c.a, c.b}; }

}  // namespace

std::string fitted_toml(const BoardsFile& boards, const measure::FitResult& result) {
    const std::string count = std::to_string(boards.question.readings.size());
    const std::string source =
        "fitted to " + count + " readings of step boards (" + boards.by + "); sd: one standard error";
    std::string out =
        "# Materials fitted to step boards: " + in_quotes(boards.title) +
        ".\n# Use them in a scene: materials = [\"this-file.toml\"]\nformat = 1\ntitle = " + in_quotes(boards.title) +
        "\n";
    const auto changed = [&](const std::string& id) {
        return std::find(result.changed.begin(), result.changed.end(), id) != result.changed.end();
    };
    // What the bench needs besides (order, waits, cautions) comes with the library's entry.
    const auto like = [&](const std::string& id) { return boards.own.count(id) ? std::string() : id; };
    for (const auto& id : result.changed) {
        Material m = result.shelf.at(id);
        std::string powders;
        if (auto* stock = std::get_if<material::Stock>(&m.data))
            for (auto& load : stock->mix) {
                if (changed(load.use))
                    load.use = boards.written_as(load.use);
                else if (result.shelf.at(load.use).kind == "dye") {
                    const std::string own = boards.written_as(id) + "-" + load.use;
                    powders += material_text(own, like(load.use),
                                             strength_told(result.shelf.at(load.use), boards.written_as(id)), source);
                    load.use = own;
                }
            }
        out += material_text(boards.written_as(id), like(id), m, source) + powders;
    }
    return out;
}

std::string fit_json(const BoardsFile& boards, const measure::FitResult& result, const std::string& material_file) {
    nlohmann::ordered_json j;
    j["tool"] = {{"name", "foretone"}, {"version", version}};
    j["boards"] = boards.title;
    j["by"] = boards.by;
    j["light"] = boards.light;
    j["observer"] = boards.observer;
    j["geometry"] = geometry_word(boards.question.geometry);
    j["material_file"] = material_file;
    j["rms_dE00"] = result.rms_de00;
    j["left_out_rms_dE00"] =
        result.left_out_rms_de00 ? nlohmann::ordered_json(*result.left_out_rms_de00) : nlohmann::ordered_json();
    j["readings"] = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < result.readings.size(); ++i) {
        const auto& r = result.readings[i];
        const auto& asked = boards.question.readings[i];
        nlohmann::ordered_json one = {{"name", r.name},
                                      {"board", boards.question.boards[asked.board].name},
                                      {"step", asked.step},
                                      {"coat", asked.coat}};
        one["read_Lab"] = lab_json(r.read);
        one["predicted_Lab"] = lab_json(r.predicted);
        one["dE00"] = r.de00;
        one["expected_dE00"] = r.expected_de00;
        one["left_out_dE00"] = r.left_out_de00 ? nlohmann::ordered_json(*r.left_out_de00) : nlohmann::ordered_json();
        j["readings"].push_back(one);
    }
    j["figures"] = nlohmann::ordered_json::array();
    for (const auto& f : result.figures)
        j["figures"].push_back({{"material", f.material},
                                {"figure", f.figure},
                                {"unit", f.unit},
                                {"library", f.library},
                                {"library_error", f.library_error},
                                {"value", f.value},
                                {"error", f.error},
                                {"error_is_of_logarithm", f.factor},
                                {"low_95", f.low()},
                                {"high_95", f.high()},
                                {"interval_cut", f.cut()},
                                {"told", f.told}});
    j["written_as"] = nlohmann::ordered_json::object();
    for (const auto& id : result.changed) j["written_as"][id] = boards.written_as(id);
    j["notes"] = result.notes;
    j["warnings"] = nlohmann::ordered_json::array();
    for (const auto& w : boards.warnings)
        j["warnings"].push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    return j.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::scene
