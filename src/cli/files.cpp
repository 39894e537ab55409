#include "cli/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>

namespace spadework::cli {
namespace {

tl::unexpected<Error> cannot_read(const std::string& path, int why) {
  return fail(ErrorCode::kCannotRead, path,
              fmt::format("Cannot read {}: {}.", path, std::strerror(why)),
              why == ENOENT ? "Is the name right, and are you in the right folder?" : "");
}

tl::unexpected<Error> cannot_write(const std::string& path, int why) {
  return fail(ErrorCode::kCannotWrite, path,
              fmt::format("Cannot write {}: {}. Nothing was changed.", path, std::strerror(why)),
              why == ENOENT ? "Does the folder exist?" : "");
}

class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  [[nodiscard]] int get() const { return fd_; }
  [[nodiscard]] int close_now() {
    const int fd = fd_;
    fd_ = -1;
    return ::close(fd);
  }

 private:
  int fd_;
};

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::size_t most) {
  Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) return cannot_read(path, errno);
  struct stat info {};
  if (::fstat(file.get(), &info) != 0) return cannot_read(path, errno);
  if (S_ISDIR(info.st_mode)) return cannot_read(path, EISDIR);
  std::string bytes;
  char buffer[65536];
  for (;;) {
    const ssize_t n = ::read(file.get(), buffer, sizeof buffer);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return cannot_read(path, errno);
    if (n == 0) return bytes;
    bytes.append(buffer, static_cast<std::size_t>(n));
    if (bytes.size() > most || info.st_size > static_cast<off_t>(most)) {
      return fail(
          ErrorCode::kTooLarge, path,
          fmt::format("{} is {} MB long or more; {} MB are read at most.", path,
                      std::max(bytes.size(), static_cast<std::size_t>(info.st_size)) / 1'000'000,
                      most / 1'000'000),
          "Is it the right file? A garden document is a page or two of text, a weather file "
          "a few MB.");
    }
  }
}

bool begins_with(const std::string& path, std::string_view bytes) {
  struct stat info {};
  if (::stat(path.c_str(), &info) != 0 || !S_ISREG(info.st_mode)) return false;
  Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  std::string begin(bytes.size(), '\0');
  return ::pread(file.get(), begin.data(), begin.size(), 0) == static_cast<ssize_t>(begin.size()) &&
         begin == bytes;
}

std::string name_of(const std::string& path) { return path.substr(path.find_last_of('/') + 1); }

Result<bool> write_file(const std::string& path, std::string_view bytes) {
  const std::string beside = fmt::format("{}.{}.part", path, ::getpid());
  Descriptor file(::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (file.get() < 0) return cannot_write(path, errno);
  if (!write_all(file.get(), bytes) || ::fsync(file.get()) != 0 || file.close_now() != 0 ||
      ::rename(beside.c_str(), path.c_str()) != 0) {
    const int why = errno;
    ::unlink(beside.c_str());
    return cannot_write(path, why);
  }
  return true;
}

}  // namespace spadework::cli
