#include "store/file/scratch.hpp"

#include "base/error.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <random>
#include <string>
#include <system_error>

namespace barrow::store {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view mark = ".barrow-scratch-";
constexpr std::array<std::string_view, 3> sides = {"-journal", "-wal", "-shm"};

base::Error not_written(const fs::path& path, int error) {
    return {base::Kind::machine,
            fmt::format("{} cannot be written: {}", path.string(),
                        std::generic_category().message(error)),
            "look at the name, free space and permissions"};
}

/// True when the name still belongs to the open file.
bool is_named(int file, const fs::path& path) {
    struct stat opened {};
    struct stat named {};
    return ::fstat(file, &opened) == 0 && ::lstat(path.c_str(), &named) == 0
           && opened.st_ino == named.st_ino && opened.st_dev == named.st_dev;
}

void remove_with_sides(const fs::path& path) {
    for (const std::string_view side : sides) ::unlink((path.string() + std::string(side)).c_str());
    ::unlink(path.c_str());
}

/// Gives the new name if it is free; errno says why not. Where the file system does not know
/// renaming without replacing, a second name is given and the first taken away.
bool take_name(const fs::path& from, const fs::path& to) {
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0)
        return true;
    if (errno != EINVAL && errno != ENOSYS && errno != ENOTSUP) return false;
    if (::link(from.c_str(), to.c_str()) != 0) return false;
    ::unlink(from.c_str());
    return true;
}

/// 0, or the error with which the folder was not put on the disk. File systems that cannot be asked
/// to (EINVAL, ENOTSUP) keep names by themselves.
int sync_folder(const fs::path& folder) {
    const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file < 0) return errno;
    const int error = ::fsync(file) == 0 ? 0 : errno;
    ::close(file);
    return error == EINVAL || error == ENOTSUP ? 0 : error;
}

base::Error not_named(const fs::path& to, int error) {
    if (error == EEXIST)
        return base::refused(fmt::format("{} exists already", to.string()),
                             "nothing is ever written over another file: choose a new name");
    return not_written(to, error);
}

} // namespace

fs::path folder_of(const fs::path& file) {
    return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

Scratch::Scratch(const fs::path& beside, const std::optional<fs::path>& like) : beside_(beside) {
    clear_scratch(folder_of(beside));
    while (!try_to_make()) {
    }
    struct stat model {};
    if (like && ::stat(like->c_str(), &model) == 0
        && ::fchmod(file_, model.st_mode & (S_IRWXU | S_IRWXG | S_IRWXO)) != 0) {
        const int error = errno;
        ::close(file_);
        remove_with_sides(path_);
        throw not_written(beside_, error);
    }
}

/// False when the name was taken, or another program cleared the file before it was locked.
bool Scratch::try_to_make() {
    std::random_device random;
    path_ = folder_of(beside_) / fmt::format("{}{:08x}", mark, random());
    file_ = ::open(path_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
    if (file_ < 0) {
        if (errno == EEXIST) return false;
        throw not_written(beside_, errno);
    }
    // A file system that has no such locks lets the file be written all the same.
    if (::flock(file_, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK)
        if (is_named(file_, path_)) return true;
    ::close(file_);
    return false;
}

Scratch::~Scratch() {
    if (!path_.empty()) remove_with_sides(path_);
    ::close(file_);
}

void Scratch::stand_alone() const {
    constexpr std::array<char, 2> no_log = {1, 1};
    struct stat status {};
    if (::fstat(file_, &status) != 0) throw not_written(beside_, errno);
    if (status.st_size < 100) return; // an empty database has no header
    if (::pwrite(file_, no_log.data(), no_log.size(), 18) != static_cast<ssize_t>(no_log.size()))
        throw not_written(beside_, errno);
}

void Scratch::publish(const fs::path& to) {
    if (::fsync(file_) != 0) throw not_written(to, errno);
    if (!take_name(path_, to)) throw not_named(to, errno);
    path_.clear();
    if (const int error = sync_folder(folder_of(to)); error != 0) {
        ::unlink(to.c_str());
        throw not_written(to, error);
    }
}

void refuse_stray_journals(const fs::path& path) {
    for (const char* side : {"-journal", "-wal"}) {
        const fs::path stray = path.string() + side;
        struct stat status {};
        if (::lstat(stray.c_str(), &status) == 0)
            throw base::refused(
                fmt::format("{} is left of a shop that is gone", stray.string()),
                "it belongs to no new shop: move it away, or name another file with --shop");
    }
}

void rename_without_replacing(const fs::path& from, const fs::path& to) {
    if (!take_name(from, to)) throw not_named(to, errno);
    if (const int error = sync_folder(folder_of(to)); error != 0) throw not_written(to, error);
}

void clear_scratch(const fs::path& folder) {
    std::error_code failed;
    for (fs::directory_iterator entry(folder, failed), end; !failed && entry != end;
         entry.increment(failed)) {
        std::string name = entry->path().filename().string();
        if (name.rfind(mark, 0) != 0) continue;
        const fs::path file = folder / name.substr(0, mark.size() + 8);
        struct stat status {};
        if (::lstat(file.c_str(), &status) != 0) {
            remove_with_sides(file); // only a side file is left
            continue;
        }
        const int opened = ::open(file.c_str(), O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
        if (opened < 0) continue;
        if (::flock(opened, LOCK_EX | LOCK_NB) == 0 && is_named(opened, file))
            remove_with_sides(file);
        ::close(opened);
    }
}

} // namespace barrow::store
