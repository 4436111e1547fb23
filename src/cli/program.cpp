// The program's own description: what --help, the manual page and the shells' completions are made of.

#include "common.hpp"
#include "foretone/scene/version.hpp"

namespace foretone::cli {

void describe(CLI::App& app, Verb& run) {
    app.name("foretone");
    app.description("foretone shows how finished wood will look, before anything touches the wood");
    app.set_version_flag("--version", std::string("foretone ") + scene::version);
    app.require_subcommand(1);
    app.fallthrough(false);
    add_new(app, run);
    add_preview(app, run);
    add_board(app, run);
    add_coats(app, run);
    add_match(app, run);
    add_color(app, run);
    add_materials(app, run);
    add_verify(app, run);
    add_optics(app, run);
    add_mix(app, run);
    add_plan(app, run);
    add_export(app, run);
    add_sheet(app, run);
    add_book(app, run);
    add_read(app, run);
    add_chart(app, run);
    add_fit(app, run);
    add_correct(app, run);
    add_manual(app, run);
}

}  // namespace foretone::cli
