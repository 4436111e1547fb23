#pragma once
/// Bytes on their way to a file that is written later: in memory while they are few, then on disk without a name.

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <span>
#include <vector>

namespace foretone::scene {

class Spool {
public:
    static constexpr std::size_t held = 4U << 20U;  ///< bytes in memory before the disk is asked

    /// What is too much for memory goes beside `folder`, or, where that cannot be, among the machine's temporary files.
    explicit Spool(std::filesystem::path folder);
    ~Spool();
    Spool(const Spool&) = delete;
    Spool& operator=(const Spool&) = delete;

    /// Throws InputError `out-unwritable` with the cause if the disk does not take them.
    void add(std::span<const std::uint8_t> bytes);
    std::uint64_t size() const { return size_; }

    /// All of them again in order, piece by piece, until `take` returns what is not 0 (errno), which is returned.
    int each(const std::function<int(std::span<const std::uint8_t>)>& take) const;

private:
    void open();

    std::filesystem::path folder_;
    std::vector<std::uint8_t> memory_;
    int file_ = -1;
    std::uint64_t size_ = 0;
};

}  // namespace foretone::scene
