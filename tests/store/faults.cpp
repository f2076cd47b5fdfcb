#include "store/faults.hpp"

#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <dlfcn.h>
#include <fcntl.h>
#include <stdexcept>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

using barrow::test::Fault;

Fault fault = Fault::none;
long wanted = 0;
long counted = 0;
bool counting = false;

enum class Outcome { real, fail, half, half_and_die };

/// What becomes of the operation that is about to be done.
Outcome next() {
    if (!counting) return Outcome::real;
    ++counted;
    const bool now = counted == wanted || (fault == Fault::fail_on && counted > wanted);
    if (!now || fault == Fault::none) return Outcome::real;
    if (fault == Fault::die) raise(SIGKILL);
    if (fault == Fault::shorten) return Outcome::half;
    if (fault == Fault::die_mid) return Outcome::half_and_die;
    return Outcome::fail;
}

/// The C library's own function of that name.
template <typename Function>
Function real(const char* name) {
    return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name)); // NOLINT: what dlsym is for
}

/// An operation that is done or not, with no half.
template <typename Done>
int whole(Done done) {
    switch (next()) {
    case Outcome::real: return done();
    case Outcome::half_and_die: raise(SIGKILL); [[fallthrough]];
    default: errno = EIO; return -1;
    }
}

/// A write: `put` is given how many bytes to put down.
template <typename Put>
ssize_t some(size_t size, Put put) {
    switch (next()) {
    case Outcome::real: return put(size);
    case Outcome::half:
        put(size / 2);
        errno = ENOSPC;
        return -1;
    case Outcome::half_and_die:
        put(size / 2);
        raise(SIGKILL);
        [[fallthrough]];
    default: errno = EIO; return -1;
    }
}

} // namespace

// Named as in the C library, so that SQLite and the store call these instead.
extern "C" {

ssize_t pwrite(int file, const void* bytes, size_t size, off_t at) {
    static const auto call = real<ssize_t (*)(int, const void*, size_t, off_t)>("pwrite");
    return some(size, [&](size_t part) { return call(file, bytes, part, at); });
}

ssize_t pwrite64(int file, const void* bytes, size_t size, off64_t at) {
    static const auto call = real<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64");
    return some(size, [&](size_t part) { return call(file, bytes, part, at); });
}

int ftruncate(int file, off_t size) noexcept {
    static const auto call = real<int (*)(int, off_t)>("ftruncate");
    return whole([&] { return call(file, size); });
}

int ftruncate64(int file, off64_t size) noexcept {
    static const auto call = real<int (*)(int, off64_t)>("ftruncate64");
    return whole([&] { return call(file, size); });
}

int fsync(int file) {
    static const auto call = real<int (*)(int)>("fsync");
    return whole([&] { return call(file); });
}

int fdatasync(int file) {
    static const auto call = real<int (*)(int)>("fdatasync");
    return whole([&] { return call(file); });
}

int unlink(const char* path) noexcept {
    static const auto call = real<int (*)(const char*)>("unlink");
    return whole([&] { return call(path); });
}

int link(const char* from, const char* to) noexcept {
    static const auto call = real<int (*)(const char*, const char*)>("link");
    return whole([&] { return call(from, to); });
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to,
              unsigned flags) noexcept {
    static const auto call =
        real<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
    return whole([&] { return call(from_folder, from, to_folder, to, flags); });
}

int fchmod(int file, mode_t mode) noexcept {
    static const auto call = real<int (*)(int, mode_t)>("fchmod");
    return whole([&] { return call(file, mode); });
}

int open(const char* path, int flags, ...) {
    static const auto call = real<int (*)(const char*, int, ...)>("open");
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    if ((flags & O_CREAT) == 0) return call(path, flags, mode);
    return whole([&] { return call(path, flags, mode); });
}

int open64(const char* path, int flags, ...) {
    static const auto call = real<int (*)(const char*, int, ...)>("open64");
    va_list rest;
    va_start(rest, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    if ((flags & O_CREAT) == 0) return call(path, flags, mode);
    return whole([&] { return call(path, flags, mode); });
}

} // extern "C"

namespace barrow::test {

InjectedFaults::InjectedFaults(Fault what, long at) {
    fault = what;
    wanted = at;
    counted = 0;
    counting = true;
}

InjectedFaults::~InjectedFaults() {
    counting = false;
}

long InjectedFaults::count() {
    return counted;
}

int in_child(const std::function<void()>& action) {
    std::fflush(nullptr);
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("no child process");
    if (child == 0) {
        action();
        _exit(0);
    }
    int status = 0;
    if (waitpid(child, &status, 0) != child) throw std::runtime_error("the child is lost");
    return WIFSIGNALED(status) ? WTERMSIG(status) : 0;
}

} // namespace barrow::test
