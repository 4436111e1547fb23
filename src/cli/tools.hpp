#pragma once
/// The scale and the syringe that a verb is told of.

#include <stdexcept>

#include "common.hpp"
#include "foretone/schedule/pot.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::cli {

/// What an option says; a fault of it is placed at the option.
template <class Read>
auto at_option(const char* option, const Read& read) {
    try {
        return read();
    } catch (const schedule::Fault& f) {
        throw scene::InputError(f.id, {option}, f.what());
    }
}

/// What a verb does; a Fault or a bad argument is placed at the verb, `where`.
template <class Run>
int with_place(const std::string& where, const Run& run) {
    try {
        return run();
    } catch (const schedule::Fault& f) {
        throw scene::InputError(f.id, {where}, f.what());
    } catch (const std::invalid_argument& e) {
        throw scene::InputError("amount-range", {where}, e.what());
    }
}

/// Adds --scale and --syringe.
void add_tools(CLI::App& verb, std::string& scale, std::string& syringe);

/// The tools as said. Unsaid: a scale of 0.1 g or 0.01 oz; a syringe of 0.5 mL or 0.02 fl oz, and measuring cups for
/// what is more than it holds.
schedule::Tools tools_of(const std::string& scale, const std::string& syringe, schedule::UnitSystem units);

/// What they are called in a formula.
std::string tools_text(const std::string& scale, const std::string& syringe, schedule::UnitSystem units);

}  // namespace foretone::cli
