#include <algorithm>
#include <cstring>
#include <iostream>
#include <string_view>

#include "common.hpp"
#include "foretone/base/utf8.hpp"
#include "foretone/job/stoppable.hpp"
#include "standard_output.hpp"
#include "usage.hpp"
#include "watch.hpp"

namespace {
using namespace foretone;

constexpr std::size_t longest_argument = 4096;  // bytes: the longest path

// Arguments come back in messages and names of files: none is to move a terminal's cursor, or to fill it.
std::string fault_of(int number, const char* argument) {
    const std::string which = "argument " + std::to_string(number);
    if (base::has_control(argument))
        return which + " holds a control character (a line break, an escape); take it out [argument-control]";
    if (const auto size = std::strlen(argument); size > longest_argument)
        return which + " has " + std::to_string(size) + " bytes; at most " + std::to_string(longest_argument) +
               " are read: shorten it [argument-long]";
    return "";
}

int program(int argc, char** argv) {
    for (int i = 1; i < argc; ++i)
        if (const auto fault = fault_of(i, argv[i]); !fault.empty()) {
            std::cerr << "error: " << fault << '\n';
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
    const bool quiet = std::any_of(argv, argv + argc, [](std::string_view a) { return a == "--quiet"; });
    try {
        const cli::Watch watch("foretone " + std::string(argc > 1 ? argv[1] : ""), quiet);
        return run();
    } catch (const job::Stopped&) {
        std::cerr << "stopped; nothing was written\n";
        return 1;
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
    const int status = cli::status_after(program(argc, argv));
    if (const auto fault = out.finish(); !fault.empty()) {
        std::cerr << "error: standard output: " << fault << " [out-unwritable]\n";
        return status == 0 ? 1 : status;
    }
    return status;
}
