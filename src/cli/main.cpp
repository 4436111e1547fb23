#include <iostream>

#include "common.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/scene/json.hpp"

int main(int argc, char** argv) {
    using namespace foretone;
    CLI::App app("foretone shows how finished wood will look, before anything touches the wood", "foretone");
    app.set_version_flag("--version", std::string("foretone ") + scene::version);
    app.require_subcommand(1);
    app.fallthrough(false);
    cli::Verb run;
    cli::add_preview(app, run);
    cli::add_coats(app, run);
    cli::add_match(app, run);
    cli::add_color(app, run);
    cli::add_materials(app, run);
    cli::add_verify(app, run);
    cli::add_optics(app, run);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) {
        return app.exit(e) == 0 ? 0 : 2;
    }
    try {
        return run();
    } catch (const scene::InputError& e) {
        std::cerr << "error: " << e.what() << '\n';
        return 1;
    } catch (const std::exception& e) {
        std::cerr << "error: " << e.what() << " [unexpected]\n";
        return 1;
    }
}
