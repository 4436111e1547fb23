#include "common.hpp"

#include <iostream>
#include <set>

#include "foretone/job/cautions.hpp"
#include "foretone/scene/output.hpp"

namespace foretone::cli {

void add_common(CLI::App& verb, Common& common) {
    verb.add_option("--json", common.json,
                    "Write the result as JSON to FILE ('-': standard output, and nothing else there)")
        ->type_name("FILE");
    verb.add_option("--out", common.out, "Folder for pictures (default: out)")->type_name("DIR");
    verb.add_option("--spectra", common.spectra, "Use the material library in DIR instead of the built-in one")
        ->type_name("DIR");
    verb.add_flag("--quiet", common.quiet, "Print nothing but errors");
}

scene::Library library(const Common& common) {
    return common.spectra.empty() ? scene::Library() : scene::Library(common.spectra);
}

void put_json(const Common& common, const std::string& json) {
    if (common.json_to_stdout())
        std::cout << json;
    else if (!common.json.empty())
        scene::write_all({scene::OutputFile::text(common.json, json)});
}

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
