#include "foretone/scene/library_check.hpp"

#include "foretone/material/figures.hpp"

namespace foretone::scene {
namespace {

// Ids that a material names must exist and be of the kind they are named as.
void check_names(const Library& library, const material::Material& m, const Place& place,
                 std::vector<Problem>& problems) {
    const auto due = [&](const std::string& id, std::string_view kind) {
        const auto* entry = library.find(id);
        if (!entry || entry->kind != kind)
            problems.push_back(
                {"material-unknown", place,
                 "there is no " + std::string(kind) + " '" + id + "'." + suggestion(id, library.ids(kind))});
    };
    if (const auto* dye = std::get_if<material::Dye>(&m.data))
        for (const auto& c : dye->carriers) due(c, "liquid");
    if (const auto* binder = std::get_if<material::Binder>(&m.data))
        if (!binder->carrier.empty()) due(binder->carrier, "liquid");
    if (m.order.redissolved_by)
        for (const auto& liquid : m.order.redissolved_by->value) due(liquid, "liquid");
    if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        due(stock->carrier, "liquid");
        for (const auto& load : stock->mix) due(load.use, "dye");
    }
}

}  // namespace

LibraryCheck check_library(const Library& library) {
    LibraryCheck out;
    for (const auto& entry : library.entries()) {
        ++out.files;
        try {
            if (entry.kind == "illuminant") {
                library.illuminant(entry.id);
                if (library.comments(entry.id).empty()) {
                    const Place place{library.where(entry), 1, 1};
                    out.problems.push_back(
                        {"provenance-missing", place, "a light says in its comments where it comes from"});
                }
            } else if (entry.kind == "observer") {
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
