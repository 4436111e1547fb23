#include "common.hpp"

#include <cmath>
#include <iostream>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/text_file.hpp"

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
    const auto cautions = job::all_cautions(words);
    if (common.speaks()) {
        std::cout << "\ncautions\n";
        for (const auto& c : cautions) std::cout << "  " << c.id << ": " << c.text << "\n";
        return;
    }
    std::cerr << "caution:";
    for (const auto& c : cautions) std::cerr << " " << c.id;
    std::cerr << (common.json_to_stdout() ? " (texts in the JSON)\n" : " (texts without --quiet)\n");
}

}  // namespace foretone::cli
