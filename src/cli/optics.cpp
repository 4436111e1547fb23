#include <iostream>
#include <memory>

#include "common.hpp"
#include "foretone/base/number.hpp"
#include "foretone/optics/angular.hpp"
#include "foretone/job/two_flux_range.hpp"
#include "foretone/report/optics_json.hpp"
#include "foretone/optics/two_flux.hpp"
#include "foretone/scene/stack_file.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {

struct OpticsOptions : Common {
    std::string stack;
    std::string solver = "two-flux";
    int streams = optics::AngularOptions{}.streams;
};

int run_optics(const OpticsOptions& options) {
    const auto file = scene::read_stack(options.stack);
    const auto fluxes = options.solver == "angular" ? optics::angular(file.stack, file.light, {options.streams, false})
                                                    : optics::two_flux(file.stack, file.light);
    const auto warnings =
        options.solver == "two-flux" ? job::beyond_two_flux(file, options.stack) : std::vector<scene::Problem>{};
    put_json(options, report::fluxes_json(options.solver, file, fluxes, warnings));
    print_warnings(options, warnings);
    if (!options.speaks()) return 0;

    std::vector<std::vector<std::string>> rows = {{"nm", "reflectance", "of it surface", "transmittance"}};
    for (std::size_t i = 0; i < file.wavelengths_nm.size(); ++i)
        rows.push_back({base::shortest(file.wavelengths_nm[i]), fixed(fluxes.reflectance[i], 6),
                        fixed(fluxes.surface[i], 6), fixed(fluxes.transmittance[i], 6)});
    std::cout << "solver " << options.solver;
    if (options.solver == "angular") std::cout << ", " << options.streams << " streams";
    std::cout << "\n" << table(rows, {true, true, true, true});
    return 0;
}

}  // namespace

void add_optics(CLI::App& app, Verb& chosen) {
    auto options = std::make_shared<OpticsOptions>();
    auto* verb = app.add_subcommand("optics", "Reflectance and transmittance of a raw optical stack");
    verb->add_option("STACK", options->stack, "Stack file (TOML)")->required();
    verb->add_option("--solver", options->solver, "two-flux or angular (default: two-flux)")
        ->check(CLI::IsMember({"two-flux", "angular"}));
    verb->add_option("--streams", options->streams, "Directions a hemisphere for the angular solver")
        ->check(CLI::Range(4, 64));
    add_common(*verb, *options);
    verb->callback([options, &chosen] { chosen = [options] { return run_optics(*options); }; });
}

}  // namespace foretone::cli
