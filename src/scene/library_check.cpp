#include "foretone/scene/library_check.hpp"

#include <algorithm>

#include "foretone/material/figures.hpp"
#include "foretone/material/references.hpp"

namespace foretone::scene {
namespace {

// Ids that a material names must exist and be of the kind they are named as.
void check_names(const Library& library, const material::Material& m, const Place& place,
                 std::vector<Problem>& problems) {
    for (const auto& [id, due, part, or_else] : material::references(m)) {
        const auto* entry = library.find(id);
        if (!entry || (entry->kind != due &&
                       (!entry->kind || std::find(or_else.begin(), or_else.end(), *entry->kind) == or_else.end())))
            problems.push_back(
                {"material-unknown", place,
                 "there is no " + std::string(word(due)) + " '" + id + "'." + suggestion(id, library.ids(due))});
    }
}

}  // namespace

LibraryCheck check_library(const Library& library) {
    LibraryCheck out;
    for (const auto& entry : library.entries()) {
        ++out.files;
        try {
            if (entry.light) {
                library.illuminant(entry.id);
                if (library.comments(entry.id).empty()) {
                    const Place place{library.where(entry), 1, 1};
                    out.problems.push_back(
                        {"provenance-missing", place, "a light says in its comments where it comes from"});
                }
            } else if (!entry.kind) {
                library.observer(entry.id);
            } else {
                auto m = library.material(entry.id);
                check_names(library, m, {library.where(entry)}, out.problems);
                for (const auto& f : material::figures(m)) {
                    ++out.figures;
                    ++out.marks[f.from().mark];
                }
            }
        } catch (const InputError& e) {
            out.problems.insert(out.problems.end(), e.problems.begin(), e.problems.end());
        }
    }
    return out;
}

}  // namespace foretone::scene
