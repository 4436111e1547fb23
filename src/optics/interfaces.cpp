#include "interfaces.hpp"

#include <algorithm>

#include "beam.hpp"

namespace foretone::optics {

const Interfaces& InterfaceShelf::of(std::span<const double> media, RayCosines rays) {
    ++now_;
    Place* oldest = &places_.front();
    for (Place& p : places_) {
        if (p.rays == rays && std::equal(p.media.begin(), p.media.end(), media.begin(), media.end())) {
            p.asked = now_;
            return p.interfaces;
        }
        if (p.asked < oldest->asked) oldest = &p;
    }
    Place& p = *oldest;
    p.media.clear();  // not to be found if what follows throws
    p.interfaces.films.place(media);
    if (rays.beam > 0) p.interfaces.beam.place(media, rays.beam);
    if (rays.eye > 0) p.interfaces.eye.place(media, rays.eye);
    p.interfaces.cone = cone_weight(media.back());
    p.media.assign(media.begin(), media.end());
    p.rays = rays;
    p.asked = now_;
    return p.interfaces;
}

}  // namespace foretone::optics
