#pragma once
/// What a TOML file is, and what a scene says beside its finishes.

#include <string>

namespace foretone::scene {

/// Whether the text is a scene's: it has a wood or a finish. A file of materials has neither. Throws InputError
/// toml-syntax, placed in `file`.
bool is_scene(const std::string& text, const std::string& file);

/// Whether the text is a boards file's: it has boards. Throws InputError toml-syntax, placed in `file`.
bool is_boards(const std::string& text, const std::string& file);

/// What a text says beside its finishes, in one spelling: two texts that differ only in finishes, comments, blanks or
/// the order of their keys give the same. Throws InputError toml-syntax.
std::string all_but_finishes(const std::string& text, const std::string& file);

}  // namespace foretone::scene
