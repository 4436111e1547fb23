#pragma once
/// The material library: compiled into the program, or a folder of the same layout.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "foretone/material/material.hpp"
#include "foretone/spectral/standard.hpp"

namespace foretone::scene {

/// One file compiled into the program.
struct EmbeddedFile {
    std::string_view path;  ///< "woods/hard-maple.toml"
    std::string_view text;
};

/// The material library, sorted by path.
std::vector<EmbeddedFile> embedded_library();

/// The published and computed tables that the solvers are checked against.
std::vector<EmbeddedFile> embedded_tables();

class Library {
public:
    /// The compiled-in library.
    Library();
    /// A folder laid out like it. Throws InputError if it is no folder or holds no material.
    explicit Library(const std::filesystem::path& folder);

    /// One entry: where it lies, and what its folder says it is: a material of a kind, a light or an observer.
    struct Entry {
        std::string id, path;
        std::optional<material::Kind> kind;  ///< empty for a light and an observer
        bool light = false;

        /// "wood", …, "illuminant" or "observer".
        std::string_view word() const;
    };
    const std::vector<Entry>& entries() const { return entries_; }

    /// Ids of all materials, or of those of one kind; of the lights and observers that are tables. Sorted.
    std::vector<std::string> ids(std::optional<material::Kind> kind = std::nullopt) const;
    std::vector<std::string> lights() const;
    std::vector<std::string> observers() const;
    const Entry* find(std::string_view id) const;

    /// One material; its file is read once, however often it is asked for. Throws InputError: unknown id (with the
    /// nearest), or what is wrong in its file.
    material::Material material(const std::string& id) const;
    /// Every material of the library, by id. Throws InputError: what is wrong in the first file that is not right.
    material::Materials materials() const;
    /// A light: a table of the library, "D5500" or "P2700" (daylight or a black body of so many kelvin), or the path of
    /// a lamp's own file (`*.csv`: wavelength_nm,power). Throws InputError: unknown id (with the nearest), a
    /// temperature out of range, or what is wrong in the file.
    spectral::Illuminant illuminant(const std::string& id) const;
    /// Whether `illuminant` would find a light of that id; true for any `.csv`, which may still turn out bad.
    bool has_light(std::string_view id) const;
    spectral::Observer observer(const std::string& id) const;
    /// The comment lines at the head of a light or observer: its provenance.
    std::vector<std::string> comments(const std::string& id) const;

    /// Text of an entry's file.
    std::string text(const Entry& entry) const;
    /// How the entry is named in messages.
    std::string where(const Entry& entry) const;

private:
    struct Held;
    void add(const std::string& path);
    material::Material read(const std::string& id) const;
    std::optional<std::filesystem::path> folder_;
    std::vector<Entry> entries_;
    std::shared_ptr<Held> held_;  ///< materials read so far; copies of a library share them
};

}  // namespace foretone::scene
