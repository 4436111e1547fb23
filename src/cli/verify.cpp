#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/optics/angular.hpp"
#include "foretone/report/verdict.hpp"
#include "foretone/report/json.hpp"
#include "foretone/scene/output.hpp"
#include "foretone/scene/version.hpp"
#include "foretone/job/stoppable.hpp"
#include "foretone/job/verdict.hpp"
#include "watch.hpp"

namespace foretone::cli {
namespace {

struct VerifyOptions : Common {
    int streams = optics::AngularOptions{}.streams;
    std::size_t worlds = 10;
};

// Says how far a part is; where the run is stopped, ends the part.
std::function<void(double)> told(const std::string& what) {
    return [what](double share) {
        if (stop_asked()) throw job::Stopped{};
        tell(what + ": " + std::to_string(static_cast<int>(100 * share)) + " %");
    };
}

// The verdict part by part, the short ones first: a run that is stopped keeps the parts that are done.
job::Verdict judged(const VerifyOptions& options, const scene::Library& lib) {
    job::Verdict out;
    out.streams = options.streams;
    struct Part {
        const char* what;
        std::function<void()> judge;
    };
    std::vector<Part> parts = {
        {"published tables", [&] { out.tables = job::check_tables(options.streams); }},
        {"published orders", [&] { out.rankings = job::check_rankings(lib); }},
        {"published changes by light", [&] { out.ageing = job::check_ageing(lib); }},
        {"published boards", [&] { out.calibration = job::calibrate(lib); }},
        {"the solvers against each other",
         [&] { out.agreement = job::compare_solvers(lib, options.streams, 1, 0, told("boards judged")); }}};
    if (options.worlds > 0)
        parts.push_back({"learning from step boards", [&] {
                             out.learning = job::check_learning(lib, options.worlds, 0, told("hidden worlds judged"));
                         }});
    for (const auto& part : parts) {
        tell(part.what);
        try {
            if (!stop_asked()) {
                part.judge();
                continue;
            }
        } catch (const job::Stopped&) {}
        out.left_out.emplace_back(part.what);
    }
    if (out.left_out.size() == parts.size()) throw job::Stopped{};
    return out;
}

int run_verify(const VerifyOptions& options) {
    const auto lib = library(options);
    job::require_compared(lib);  // all that is lacking is told at once, before minutes go into it
    const Stoppable by_hand;
    const auto verdict = judged(options, lib);

    const std::string json = report::verdict_json(verdict), markdown = report::verdict_markdown(verdict);
    const auto file =
        scene::OutputFile::text(std::filesystem::path(options.out) / "verify.md",
                                std::string("<!-- written by foretone ") + scene::version + " -->\n\n" + markdown);
    deliver(options, {file}, json);
    if (options.speaks()) std::cout << markdown << "\nwritten: " << file.path.string() << "\n";
    return 0;
}

}  // namespace

void add_verify(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<VerifyOptions>();
    auto* verb = app.add_subcommand("verify", "Both solvers against the published tables and against each other");
    verb->add_option("--streams", options->streams, "Directions a hemisphere for the angular solver")
        ->check(CLI::Range(4, 64));
    verb->add_option(
            "--worlds", options->worlds,
            "Hidden worlds that learning from step boards is judged by (default: 10; 0: none; the whole table: 300)")
        ->check(CLI::Range(0, 10'000));
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_verify(*options); }; });
}

}  // namespace foretone::cli
