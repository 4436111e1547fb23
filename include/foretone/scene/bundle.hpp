#pragma once
/// A job in one file: a zip with plain names that holds a scene and all it refers to (readings, materials, a
/// photograph). The browser page saves such files and opens them; every verb that takes a scene takes one.

#include <cstddef>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace foretone::scene {

/// A larger one is no job. The figures keep a hostile file from filling disk or memory.
struct BundleLimits {
    std::size_t bytes = 128u << 20;  ///< of the zip, and of all that is in it, unpacked
    std::size_t entry = 64u << 20;   ///< of one file in it, unpacked
    std::size_t entries = 64;        ///< files
    std::size_t name = 120;          ///< bytes of a name
};

/// A zip in memory. Everything about it is checked before anything is unpacked.
class Bundle {
public:
    /// `file` is what messages call it. Throws InputError: bundle-unreadable (no zip, a damaged one, an encrypted or an
    /// unusually packed file in it), bundle-large, bundle-name (a folder, a path, a name twice).
    Bundle(std::string bytes, std::string file, const BundleLimits& limits = {});
    ~Bundle();
    Bundle(Bundle&&) noexcept;
    Bundle& operator=(Bundle&&) noexcept;

    /// In the order of the zip.
    const std::vector<std::string>& names() const;

    /// The file of that name, unpacked. Throws InputError: file-missing naming what there is, file-too-large,
    /// bundle-unreadable.
    std::string read(const std::string& name, std::size_t largest) const;

    /// The one scene among the files. Throws InputError: bundle-scene if there is none or more than one; as is_scene.
    std::string scene() const;

private:
    struct Zip;
    std::unique_ptr<Zip> zip_;
};

/// Whether the file begins as a zip does.
bool is_bundle(const std::filesystem::path& file);

/// The bundle that `path` lies in: job.zip of job.zip/board.csv. Empty if it lies in none.
std::filesystem::path bundle_of(const std::filesystem::path& path);

}  // namespace foretone::scene
