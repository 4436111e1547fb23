#pragma once
/// Step boards, read, into materials of one's own.
///
/// Unknown are a wood's reflectance, a dye's strength, a film's absorption and its build a coat, and every other figure
/// of the materials used that have an effect on the readings. Each starts at the library's figure with the library's
/// spread as its prior, so that what the readings cannot tell stays where it was, and is said to. The readings' own
/// noise is unknown too: place to place on a board, board to board, the hand from coat to coat, the instrument. Least
/// squares over all of them at once (Levenberg–Marquardt); errors come from the Jacobian.

#include <limits>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "foretone/appearance/joint.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"
#include "foretone/material/material.hpp"
#include "foretone/optics/stack.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::learn {

/// One piece of one wood and all that was put on it.
struct StepBoard {
    std::string name;
    std::string wood;  ///< id among the materials
    schedule::Finish finish;
};

/// What an instrument's repeats of one spectrum differ by beside the ΔE of a reading: ln R at one wavelength, one
/// standard deviation (common practice).
inline constexpr double sample_noise = 0.006;

/// How that ΔE is shared, by variance: the spectrum as a whole, and a tilt about 560 nm that is 1 per 90 nm.
inline constexpr double repeat_level_share = 0.8, repeat_tilt_share = 0.2;

/// A board as read, dry, after one coat of one step.
struct BoardReading {
    std::string name;
    std::size_t board = 0;                          ///< index of its StepBoard
    int step = 0, coat = 0;                         ///< from 1; 0 and 0: bare
    std::optional<spectral::Spectrum> reflectance;  ///< 0–1; or
    std::optional<color::Lab> lab;                  ///< by the light and observer of `weights`
    double first_nm = 400, last_nm = 700;           ///< what the instrument really read of `reflectance`
    color::Weights weights;                         ///< light and observer that differences are stated for
    double spread_de = 0.3;                         ///< one standard deviation of a repeat, ΔE*ab, > 0
};

/// How much boards differ that should not. Common practice, all of it: state better figures where there are some.
struct Noise {
    double board_de = 2.0;  ///< one board of a wood from the next, ΔE*ab, one standard deviation
    double place_de = 0.7;  ///< one place of a board from the next, ΔE*ab, one standard deviation
    double hand = 0.15;     ///< wet film of a coat, as a share; half of the variance is common to a step (as in
                            ///< appearance/spread.hpp)
};

struct FitQuestion {
    material::Materials materials;
    optics::Geometry geometry = optics::Geometry::d8_included;  ///< of all readings
    std::vector<StepBoard> boards;
    std::vector<BoardReading> readings;
    Noise noise;
    bool keep_unresolved = true;  ///< figures that the readings do not narrow are put back to the library's
    bool leave_one_out = true;    ///< work out what each reading would have been predicted as without it
    std::size_t fewest = 2;       ///< fewer readings than this are refused
};

/// One figure, before and after. All errors are one standard error.
struct FittedFigure {
    std::string material, figure, unit;
    double library = 0, library_error = 0;
    double value = 0, error = 0;
    bool factor = false;    ///< positive by nature: the errors are of its logarithm
    bool resolved = false;  ///< the readings narrow it to under 0.95 of the library's spread
    bool headline = false;  ///< a wood's color or surface, a dye's strength, a film's absorption, tint or build
    double lowest = -std::numeric_limits<double>::infinity();  ///< what the figure can be at all,
    double highest = std::numeric_limits<double>::infinity();

    /// Ends of the 95 % interval, the error that is stated: value ± 1.96 errors, or value · exp(± 1.96 errors), cut at
    /// what the figure can be.
    double low() const;
    double high() const;
    bool cut() const;  ///< the interval is cut there
};

/// One reading against what the fitted materials predict for it (noise left out: what a scene will show).
struct ReadAgain {
    std::string name;
    color::Lab read, predicted;
    double de00 = 0;                      ///< between the two
    double expected_de00 = 0;             ///< what its noise makes of it, one standard deviation
    std::optional<double> left_out_de00;  ///< the same difference, predicted without this reading
};

struct FitResult {
    material::Materials materials;  ///< everything in use, at its fitted figures; figures narrowed are marked `fitted`
    std::vector<std::string> changed;   ///< ids that carry a figure that was narrowed
    std::vector<FittedFigure> figures;  ///< headline figures first
    /// How far the figures of `changed` may still be off, all together; ids are those of `materials`.
    appearance::JointTable joint;
    std::vector<ReadAgain> readings;
    double rms_de00 = 0;
    std::optional<double> left_out_rms_de00;
    std::vector<std::string> notes;
};

/// The readings make no fit. `id` is one of fit-too-few, fit-tells-nothing, fit-contradiction, fit-residual, fit-far.
struct NoFit : std::runtime_error {
    NoFit(std::string fault, const std::string& text) : std::runtime_error(text), id(std::move(fault)) {}
    std::string id;
};

/// A fit and what it knows of its own errors. Not to be shared between threads: it owns the model it asks.
class Fit {
public:
    /// Throws NoFit, schedule::Fault for a step that cannot be, std::invalid_argument for a reading of no board, of a
    /// coat that is not there, with neither reflectance nor Lab, or with a spread that is not positive.
    explicit Fit(const FitQuestion& question);
    ~Fit();
    Fit(Fit&&) noexcept;
    Fit& operator=(Fit&&) noexcept;

    const FitResult& result() const;

    /// `finish` as the hand of these boards lays it on: a wet film that a step states is scaled by what was found for
    /// that material and method.
    schedule::Finish as_laid(const schedule::Finish& finish) const;

private:
    struct Work;
    std::unique_ptr<Work> work_;
};

}  // namespace foretone::learn
