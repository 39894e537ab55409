// Loaded before a program, kills it at a chosen one of the calls by which it changes files: half
// way through a write, before a sync, before a file is cut, renamed or removed. The file that
// KILL_AT_FILE names holds the number of the call; they are counted from when it appears.
#include <dlfcn.h>
#include <unistd.h>

#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>

namespace {

std::atomic<long> left{-1};  // calls; -1: not yet counted

bool is_the_one() {
  if (left < 0) {
    const char* path = std::getenv("KILL_AT_FILE");
    std::FILE* file = path == nullptr ? nullptr : std::fopen(path, "r");
    if (file == nullptr) return false;
    long number = 0;
    long none = -1;
    if (std::fscanf(file, "%ld", &number) == 1) left.compare_exchange_strong(none, number);
    std::fclose(file);
    if (left < 0) return false;
  }
  return --left == 0;
}

[[noreturn]] void end() {
  ::kill(::getpid(), SIGKILL);
  for (;;) ::pause();
}

template <class Function>
Function* real(const char* name) {
  return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

ssize_t half_written(const char* name, int file, const void* from, std::size_t size, off_t at) {
  static auto* const write = real<ssize_t(int, const void*, std::size_t, off_t)>(name);
  if (!is_the_one()) return write(file, from, size, at);
  (void)!write(file, from, size / 2, at);
  end();
}

}  // namespace

extern "C" {

ssize_t pwrite(int file, const void* from, std::size_t size, off_t at) {
  return half_written("pwrite", file, from, size, at);
}
ssize_t pwrite64(int file, const void* from, std::size_t size, off_t at) {
  return half_written("pwrite64", file, from, size, at);
}
int fsync(int file) {
  static auto* const call = real<int(int)>("fsync");
  if (is_the_one()) end();
  return call(file);
}
int fdatasync(int file) {
  static auto* const call = real<int(int)>("fdatasync");
  if (is_the_one()) end();
  return call(file);
}
int ftruncate64(int file, off_t size) noexcept {
  static auto* const call = real<int(int, off_t)>("ftruncate64");
  if (is_the_one()) end();
  return call(file, size);
}
int rename(const char* from, const char* to) noexcept {
  static auto* const call = real<int(const char*, const char*)>("rename");
  if (is_the_one()) end();
  return call(from, to);
}
int unlink(const char* path) noexcept {
  static auto* const call = real<int(const char*)>("unlink");
  if (is_the_one()) end();
  return call(path);
}
}
