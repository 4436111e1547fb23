#pragma once
// What a finish is like after some time, in words.

#include "foretone/job/preview.hpp"

namespace foretone::cli {

/// A table of the look's times; empty if there are none.
std::string aged_text(const job::SeenFinish& finish, const scene::Look& look);

/// What such colors are, and what is known of the wood.
std::string ageing_note(const job::AgeClass& wood);

/// "by a window; of it wood 5.1, film 0.3, dye 1.2": for the caption of a field.
std::string aged_caption(const job::SeenAge& aged);

/// A time given to a verb. Throws UsageError for what is none.
scene::Duration after_from(const std::string& verb, const std::string& text);

}  // namespace foretone::cli
