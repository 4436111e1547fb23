#pragma once
/// Raw optical stacks (TOML), for the `optics` verb.

#include <filesystem>
#include <string>
#include <vector>

#include "foretone/optics/stack.hpp"

namespace foretone::scene {

/// A stack, its light, and the wavelengths that its arrays stand for.
struct StackFile {
    std::vector<double> wavelengths_nm;
    optics::Light light;
    optics::Stack stack;
};

/// Reads a stack file. Throws InputError with everything found wrong: unknown keys, negative coefficients, arrays of
/// another length than the wavelengths, albedo above 1, a half-space above another layer, n below 1, ...
StackFile read_stack(const std::filesystem::path& file);
StackFile read_stack_text(const std::string& text, const std::string& file);

}  // namespace foretone::scene
