#pragma once

#include <filesystem>
#include <optional>

namespace barrow::store {

/// A new file under a passing name, which is given its own name only once it is whole.
///
/// It stands in the folder of the file it will become, and is removed with SQLite's side files
/// unless publish() is reached. While it is being written it is locked (flock); one that nobody has
/// locked was left by a program that was killed, and is removed by clear_scratch().
class Scratch {
public:
    /// Makes an empty file in the folder of `beside`, after clearing what others left there. Its
    /// permissions are those of `like`, or those of any new file when there is none. Throws
    /// base::Error (Kind::machine) with the cause, naming `beside`.
    explicit Scratch(const std::filesystem::path& beside,
                     const std::optional<std::filesystem::path>& like = std::nullopt);
    ~Scratch();
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    const std::filesystem::path& path() const { return path_; }

    /// Says in the header of the SQLite file that no write-ahead log belongs to it (bytes 18 and
    /// 19, sqlite.org/fileformat2.html). No connection may be open.
    void stand_alone() const;

    /// Waits until the content is on the disk, gives the file the name `to` without replacing
    /// anything, and waits until the folder is on the disk. Throws base::Error: Kind::refused when
    /// the name is taken, Kind::machine when the disk does not confirm; nothing is left under the
    /// name then. No connection may be open.
    void publish(const std::filesystem::path& to);

private:
    bool try_to_make();

    std::filesystem::path path_;
    std::filesystem::path beside_;
    int file_ = -1;
};

/// Removes the scratch files in a folder that nobody is writing. What cannot be removed stays.
void clear_scratch(const std::filesystem::path& folder);

/// Gives the file `from` the name `to` in the same folder, without replacing anything, and waits
/// until the folder is on the disk. Throws base::Error (Kind::refused when the name is taken, else
/// Kind::machine).
void rename_without_replacing(const std::filesystem::path& from, const std::filesystem::path& to);

/// Throws base::Error (Kind::refused) when a journal or log stands beside the name of a file that
/// is not there: SQLite would play it back into the next file of that name.
void refuse_stray_journals(const std::filesystem::path& path);

/// The folder a file stands in: "." for a bare name.
std::filesystem::path folder_of(const std::filesystem::path& file);

} // namespace barrow::store
