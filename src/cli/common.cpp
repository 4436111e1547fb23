#include "common.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/text_file.hpp"
#include "foretone/scene/written_units.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/schedule/spelling.hpp"

namespace foretone::cli {

CLI::Validator finite() {
    return {[](const std::string& text) {
                const auto v = base::number_in(base::trimmed(text));
                return v && std::isfinite(*v) ? std::string() : "'" + text + "' is not a finite number";
            },
            ""};
}

void add_common(CLI::App& verb, Common& common) {
    verb.add_option("--json", common.json,
                    "Write the result as JSON to FILE ('-': standard output, and nothing else there)")
        ->type_name("FILE");
    verb.add_option("--out", common.out, "Folder for pictures (default: out)")->type_name("DIR");
    verb.add_option("--spectra", common.spectra, "Use the material library in DIR instead of the built-in one")
        ->type_name("DIR");
    verb.add_flag("--replace", common.replace,
                  "Write also over a file that this run reads, or that foretone has not written");
    verb.add_flag("--quiet", common.quiet, "Print nothing but errors");
    if (!verb.get_option_no_throw("--units"))
        verb.add_option("--units", common.units, "us or metric: units to print in (default: as the input is written)")
            ->type_name("us|metric");
    verb.add_flag("--cautions", common.cautions, "Print every caution in full");
}

std::optional<schedule::UnitSystem> units_said(const Common& common) {
    const auto word = base::lower(common.units);
    if (word.empty()) return std::nullopt;
    if (word == "us" || word == "imperial") return schedule::UnitSystem::us;
    if (word == "metric" || word == "si") return schedule::UnitSystem::metric;
    throw scene::InputError("units-unknown", {"--units"},
                            "'" + common.units.substr(0, 40) + "' is neither us nor metric");
}

schedule::UnitSystem units_for(const Common& common, const scene::Scene& scene, const std::string& amount) {
    if (const auto said = units_said(common)) return *said;
    if (scene.look.units) return *scene.look.units;
    if (const auto written = schedule::units_written(amount)) return *written;
    return scene::units_of(scene);
}

layout::Paper paper_for(const std::string& said, schedule::UnitSystem units) {
    const auto word = base::lower(said);
    if (word.empty()) return units == schedule::UnitSystem::us ? layout::Paper::letter : layout::Paper::a4;
    if (word == "a4") return layout::Paper::a4;
    if (word == "letter" || word == "us-letter" || word == "us letter") return layout::Paper::letter;
    throw UsageError("paper-unknown", {"--paper"}, "'" + said.substr(0, 40) + "' is neither a4 nor letter");
}

scene::Library library(const Common& common) {
    return common.spectra.empty() ? scene::Library() : scene::Library(common.spectra);
}

std::vector<scene::OutputFile> json_file(const Common& common, const std::string& json) {
    if (common.json.empty() || common.json_to_stdout()) return {};
    auto file = scene::OutputFile::text(common.json, json);
    file.otherwise = "choose another file with --json FILE";
    return {file};
}

void deliver(const Common& common, std::vector<scene::OutputFile> files, const std::string& json) {
    for (auto& file : json_file(common, json)) files.push_back(std::move(file));
    scene::write_all(files, common.rules());
    if (common.json_to_stdout()) std::cout << json;
}

scene::WriteRules Common::rules() const { return {scene::files_read(), replace}; }

void put_json(const Common& common, const std::string& json) { deliver(common, {}, json); }

void print_warnings(const Common& common, const std::vector<scene::Problem>& warnings) {
    if (common.quiet) return;
    std::set<std::string> said;
    for (const auto& w : warnings) {
        const std::string line = w.place.text() + ": " + w.text + " [" + w.id + "]";
        if (said.insert(line).second) std::cerr << "note: " << line << '\n';
    }
}

void print_cautions(const Common& common, const std::vector<std::string>& words) {
    if (common.quiet) return;
    const auto cautions = job::all_cautions(words);
    if (!common.speaks()) {
        std::cerr << "caution:";
        for (const auto& c : cautions) std::cerr << " " << c.id;
        std::cerr << " (texts in the JSON)\n";
        return;
    }
    std::vector<std::string> standing;
    for (const auto& c : job::all_cautions({})) standing.emplace_back(c.id);
    std::cout << "\ncautions\n";
    for (const auto& c : cautions)
        if (common.cautions || std::find(standing.begin(), standing.end(), c.id) == standing.end())
            std::cout << "  " << c.id << ": " << c.text << "\n";
    if (!common.cautions) std::cout << "  always: " << base::joined(standing) << " (in full: --cautions)\n";
}

}  // namespace foretone::cli
