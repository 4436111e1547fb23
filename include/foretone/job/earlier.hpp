#pragma once
/// Earlier readings of a finish, from the job notebook, beside what is predicted for it today.

#include "foretone/job/preview.hpp"
#include "foretone/scene/notebook.hpp"

namespace foretone::job {

/// An earlier reading of a finish beside today's prediction.
struct EarlierReading {
    int entry = 0;  ///< its id in the notebook; 0: it has none
    std::string date, sample, light;
    color::Lab read, now;
    double de00 = 0;
    bool same_recipe = false;  ///< the finish is still as it was then
};

/// The readings of `finish` that can be compared: same geometry, and a light of the look by its observer.
std::vector<EarlierReading> earlier_readings(const scene::Notebook& notebook, const Preview& preview,
                                             std::size_t finish);

}  // namespace foretone::job
