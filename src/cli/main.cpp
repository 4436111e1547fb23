#include <iostream>

#include "common.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/report/json.hpp"
#include "foretone/scene/version.hpp"

int main(int argc, char** argv) {
    using namespace foretone;
    CLI::App app("foretone shows how finished wood will look, before anything touches the wood", "foretone");
    app.set_version_flag("--version", std::string("foretone ") + scene::version);
    app.require_subcommand(1);
    app.fallthrough(false);
    cli::Verb run;
    cli::add_preview(app, run);
    cli::add_board(app, run);
    cli::add_coats(app, run);
    cli::add_match(app, run);
    cli::add_color(app, run);
    cli::add_materials(app, run);
    cli::add_verify(app, run);
    cli::add_optics(app, run);
    cli::add_mix(app, run);
    cli::add_plan(app, run);
    cli::add_export(app, run);
    cli::add_sheet(app, run);
    cli::add_fit(app, run);
    cli::add_correct(app, run);

    try {
        // "-2m2" is an amount to be refused as such, not a cluster of options: a blank before it keeps the parser from
        // taking it for one.
        std::vector<std::string> arguments;
        for (int i = argc; --i > 0;) {
            const std::string_view a = argv[i];
            const bool negative = a.size() > 1 && a[0] == '-' && (a[1] == '.' || (a[1] >= '0' && a[1] <= '9'));
            arguments.push_back(negative ? " " + std::string(a) : std::string(a));
        }
        app.parse(std::move(arguments));
    } catch (const CLI::ParseError& e) {
        return app.exit(e) == 0 ? 0 : 2;
    }
    try {
        return run();
    } catch (const cli::UsageError& e) {
        std::cerr << "error: " << e.what() << '\n';
        return 2;
    } catch (const scene::InputError& e) {
        std::cerr << "error: " << e.what() << '\n';
        return 1;
    } catch (const std::exception& e) {
        std::cerr << "error: " << e.what() << " [unexpected]\n";
        return 1;
    }
}
