#pragma once
/// Jobs of many pieces, watched: they tell how far they are, and can be left with what is done.

#include <cstddef>
#include <functional>
#include <string>

#include "foretone/job/board.hpp"
#include "foretone/job/board_photo.hpp"
#include "foretone/job/export.hpp"

namespace foretone::job {

/// Thrown when a job is stopped before its first piece is done: there is nothing to keep.
struct Stopped {};

struct Going {
    std::function<void(const std::string& words)> told = {};  ///< "boards drawn: 3 of 8"
    std::function<bool()> stop = {};                          ///< asked between two pieces, by the thread that called

    /// Tells that `done` pieces of `all` are done; is the rest to be left? Throws Stopped if there is nothing yet.
    bool leave(const std::string& what, std::size_t done, std::size_t all) const;
};

/// As without `going`; what is stopped by it holds the pieces that were done, and a warning `stopped`.
Boards boards(const scene::Scene& scene, const scene::Library& library, const BoardRequest& request,
              const Going& going);
Export export_scene(const scene::Scene& scene, const scene::Library& library, const ExportRequest& request,
                    const std::filesystem::path& folder, const Going& going);
BoardPhoto board_photo(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                       const BoardPhotoQuestion& question, const PhotoSink& sink, const Going& going);

}  // namespace foretone::job
