#include <iostream>

#include "common.hpp"
#include "foretone/base/utf8.hpp"
#include "standard_output.hpp"
#include "usage.hpp"

namespace {
using namespace foretone;

int program(int argc, char** argv) {
    // Arguments come back in messages and names of files: none is to move a terminal's cursor.
    for (int i = 1; i < argc; ++i)
        if (base::has_control(argv[i])) {
            std::cerr << "error: argument " << i
                      << " holds a control character (a line break, an escape); take it out [argument-control]\n";
            return 2;
        }
    CLI::App app;
    cli::Verb run;
    cli::describe(app, run);

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
        if (e.get_exit_code() == 0) return app.exit(e);
        std::cerr << "error: " << cli::usage_words(app, e, {argv + 1, argv + argc}) << '\n';
        return 2;
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

}  // namespace

int main(int argc, char** argv) {
    cli::StandardOutput out;
    const int status = program(argc, argv);
    if (const auto fault = out.finish(); !fault.empty()) {
        std::cerr << "error: standard output: " << fault << " [out-unwritable]\n";
        return status == 0 ? 1 : status;
    }
    return status;
}
