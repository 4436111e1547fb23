#pragma once
/// Which other materials a material names, and what it is made of.

#include <set>
#include <string>
#include <vector>

#include "foretone/material/material.hpp"

namespace foretone::material {

/// One id that a material names.
struct Reference {
    std::string id;
    Kind due;  ///< what kind must stand behind that id
    bool part =
        false;  ///< it is in there (a stock's dye, a film's carrier); otherwise only named (what dissolves a dye)
    std::vector<Kind> or_else{};  ///< other kinds that will do
};

/// What `m` names, in file order; empty ids are left out.
std::vector<Reference> references(const Material& m);

/// The ids of what `m` is made of: the parts among `references`.
std::vector<std::string> parts(const Material& m);

/// Adds `id` to `to`, and the ids of all it is made of, to any depth. What is not on `from` is left out.
void add_with_parts(const Materials& from, const std::string& id, std::set<std::string>& to);

/// The materials `ids` of `from` with all they are made of.
Materials with_parts(const Materials& from, const std::set<std::string>& ids);

}  // namespace foretone::material
