#include <iostream>

#include "common.hpp"

int main(int argc, char** argv) {
    using namespace foretone;
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
