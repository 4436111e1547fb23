#include "foretone/scene/bundle.hpp"

#include <zip.h>

#include <algorithm>
#include <fstream>
#include <set>

#include "foretone/base/text.hpp"
#include "foretone/scene/file_kind.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/text_file.hpp"

namespace foretone::scene {
namespace {

// A name that is one file beside the scene, on every system: no folder, no drive, nothing that cannot be seen.
bool plain_name(const std::string& name) {
    const auto bad = [](char c) {
        return static_cast<unsigned char>(c) < 32 || c == 127 ||
               std::string_view("/\\:*?\"<>|").find(c) != std::string_view::npos;
    };
    return !name.empty() && name.front() != '.' && name.back() != '.' && name.back() != ' ' &&
           std::none_of(name.begin(), name.end(), bad);
}

struct ArchiveCloser {
    void operator()(zip_t* z) const { zip_discard(z); }
};
struct FileCloser {
    void operator()(zip_file_t* f) const { zip_fclose(f); }
};

}  // namespace

struct Bundle::Zip {
    std::string bytes, file;
    std::vector<std::string> names;
    std::vector<std::size_t> sizes;
    std::unique_ptr<zip_t, ArchiveCloser> archive;

    [[noreturn]] void refuse(const char* id, const std::string& text) const { throw InputError(id, {file}, text); }

    void open() {
        zip_error_t error;
        zip_error_init(&error);
        auto* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
        if (source) archive.reset(zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &error));
        const std::string why = archive ? "" : zip_error_strerror(&error);
        if (!archive && source) zip_source_free(source);
        zip_error_fini(&error);
        if (!archive) refuse("bundle-unreadable", "this is no zip that can be read (" + why + "); save the job again");
    }

    void list(const BundleLimits& limits) {
        const auto count = static_cast<std::size_t>(std::max<zip_int64_t>(0, zip_get_num_entries(archive.get(), 0)));
        if (count > limits.entries)
            refuse("bundle-large", "there are " + std::to_string(count) + " files in it; the most of a job is " +
                                       std::to_string(limits.entries));
        std::size_t all = 0;
        std::set<std::string> seen;
        for (std::size_t i = 0; i < count; ++i) {
            zip_stat_t stat;
            if (zip_stat_index(archive.get(), i, 0, &stat) != 0 || !(stat.valid & ZIP_STAT_NAME) ||
                !(stat.valid & ZIP_STAT_SIZE) || !(stat.valid & ZIP_STAT_COMP_METHOD) ||
                !(stat.valid & ZIP_STAT_ENCRYPTION_METHOD))
                refuse("bundle-unreadable", "its list of files is damaged; save the job again");
            const std::string name = stat.name;
            if (name.size() > limits.name || !plain_name(name))
                refuse("bundle-name", "it holds '" + name.substr(0, 60) +
                                          "'; a job's files lie in its zip without folders, under plain names");
            if (!seen.insert(name).second) refuse("bundle-name", "it holds '" + name + "' twice");
            if (stat.encryption_method != ZIP_EM_NONE)
                refuse("bundle-unreadable", "'" + name + "' is encrypted; save the job without a password");
            if (stat.comp_method != ZIP_CM_STORE && stat.comp_method != ZIP_CM_DEFLATE)
                refuse("bundle-unreadable",
                       "'" + name + "' is packed in an unusual way; pack it as zip programs do unasked (deflate)");
            if (stat.size > limits.entry || (all += static_cast<std::size_t>(stat.size)) > limits.bytes)
                refuse("bundle-large",
                       "unpacked, '" + name + "' makes it larger than the " + std::to_string(limits.bytes >> 20U) +
                           " MB (one file: " + std::to_string(limits.entry >> 20U) + " MB) that a job may have");
            names.push_back(name);
            sizes.push_back(static_cast<std::size_t>(stat.size));
        }
    }
};

Bundle::Bundle(std::string bytes, std::string file, const BundleLimits& limits) : zip_(std::make_unique<Zip>()) {
    zip_->bytes = std::move(bytes);
    zip_->file = std::move(file);
    if (zip_->bytes.size() > limits.bytes) zip_->refuse("bundle-large", "it is larger than a job can be");
    zip_->open();
    zip_->list(limits);
}
Bundle::~Bundle() = default;
Bundle::Bundle(Bundle&&) noexcept = default;
Bundle& Bundle::operator=(Bundle&&) noexcept = default;

const std::vector<std::string>& Bundle::names() const { return zip_->names; }

std::string Bundle::read(const std::string& name, std::size_t largest) const {
    const auto at = std::find(zip_->names.begin(), zip_->names.end(), name);
    if (at == zip_->names.end())
        throw InputError("file-missing", {zip_->file + "/" + name},
                         "there is no such file in it; it holds " + base::joined(zip_->names));
    const auto i = static_cast<std::size_t>(at - zip_->names.begin());
    const auto size = zip_->sizes[i];
    if (size > largest)
        throw InputError("file-too-large", {zip_->file + "/" + name},
                         "the file has " + std::to_string(size) + " bytes; the largest read is " +
                             std::to_string(largest) + " (a scene or spectrum has a few thousand)");
    const std::unique_ptr<zip_file_t, FileCloser> in(zip_fopen_index(zip_->archive.get(), i, 0));
    // One byte more than it says: whoever says too little is found out, and so is a wrong checksum.
    std::string out(size + 1, '\0');
    std::size_t got = 0;
    for (zip_int64_t n = 1; in && n > 0 && got < out.size();
         got += static_cast<std::size_t>(std::max<zip_int64_t>(0, n))) {
        n = zip_fread(in.get(), out.data() + got, out.size() - got);
        if (n < 0) got = out.size();
    }
    if (!in || got != size)
        throw InputError("bundle-unreadable", {zip_->file + "/" + name},
                         "this part of the zip is damaged; save the job again");
    out.resize(size);
    return out;
}

std::string Bundle::scene() const {
    std::vector<std::string> scenes;
    for (const auto& name : names())
        if (name.ends_with(".toml") && is_scene(read(name, largest_text_file), zip_->file + "/" + name))
            scenes.push_back(name);
    if (scenes.size() == 1) return scenes.front();
    throw InputError("bundle-scene", {zip_->file},
                     scenes.empty() ? "it holds no scene; it holds " + base::joined(names())
                                    : "it holds more than one scene: " + base::joined(scenes));
}

bool is_bundle(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) return false;
    std::ifstream in(file, std::ios::binary);
    char head[4] = {};
    in.read(head, 4);
    return in && std::string_view(head, 4) == "PK\x03\x04";
}

std::filesystem::path bundle_of(const std::filesystem::path& path) {
    std::error_code error;
    for (auto at = path.parent_path(); !at.empty() && at != at.parent_path(); at = at.parent_path())
        if (std::filesystem::exists(at, error)) return is_bundle(at) ? at : std::filesystem::path();
    return {};
}

}  // namespace foretone::scene
