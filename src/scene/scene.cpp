// What a scene that has been read says of itself.

#include "foretone/scene/scene.hpp"

#include "foretone/scene/problem.hpp"

namespace foretone::scene {

appearance::Knowledge Scene::knowledge() const {
    appearance::Knowledge out;
    out.same_board = same_board;
    out.fits = fits;
    return out;
}

InputError Scene::at(const schedule::Fault& fault, std::size_t finish, std::size_t step) const {
    const auto& place = places.at(finish).at(step);
    const bool has_part = fault.part >= 0 && static_cast<std::size_t>(fault.part) < place.parts.size();
    return InputError(fault.id, has_part ? place.parts[static_cast<std::size_t>(fault.part)] : place.step,
                      fault.what());
}

}  // namespace foretone::scene
