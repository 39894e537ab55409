#include <dirent.h>
#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>

#include "store/store.h"

namespace spadework::store {

Result<std::vector<std::string>> gardens_in(const std::string& folder) {
  std::vector<std::string> paths;
  DIR* entries = ::opendir(folder.c_str());
  if (entries == nullptr) {
    if (errno == ENOENT) return paths;
    return fail(ErrorCode::kCannotRead, folder,
                fmt::format("Cannot look into {}: {}.", folder, std::strerror(errno)));
  }
  while (const dirent* entry = ::readdir(entries)) {
    const std::string name = entry->d_name;
    if (name.ends_with(kFileEnding) && !name.starts_with(".")) paths.push_back(folder + "/" + name);
  }
  ::closedir(entries);
  std::sort(paths.begin(), paths.end());
  return paths;
}

Result<std::string> data_folder() {
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data != nullptr && data[0] == '/') return std::string(data) + "/spadework";
  const char* home = std::getenv("HOME");
  if (home == nullptr || home[0] != '/')
    return fail(ErrorCode::kCannotWrite, "",
                "There is no home folder to keep gardens in: HOME is not set.",
                "Say where: --data FOLDER.");
  return std::string(home) + "/.local/share/spadework";
}

Result<bool> make_folder(const std::string& folder) {
  for (std::size_t end = folder.find('/', 1);; end = folder.find('/', end + 1)) {
    const std::string part = folder.substr(0, end);
    if (::mkdir(part.c_str(), 0700) != 0 && errno != EEXIST) {
      return fail(ErrorCode::kCannotWrite, part,
                  fmt::format("Cannot make the folder {}: {}.", part, std::strerror(errno)),
                  "Say where gardens shall be kept: --data FOLDER.");
    }
    if (end == std::string::npos) return true;
  }
}

std::string document_name(std::string_view path) {
  std::string_view name = path.substr(path.find_last_of('/') + 1);
  if (name.ends_with(kFileEnding)) name.remove_suffix(std::string_view(kFileEnding).size());
  return std::string(name) + ".toml";
}

std::string free_path(const std::string& folder, std::string_view title) {
  std::string name;
  for (const char c : title) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const bool capital = c >= 'A' && c <= 'Z';
    if (plain || capital)
      name += capital ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!name.empty() && name.back() != '-')
      name += '-';
    if (name.size() == 40) break;
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  if (name.empty()) name = "garden";
  std::string path = fmt::format("{}/{}{}", folder, name, kFileEnding);
  struct stat info {};
  for (int n = 2; ::stat(path.c_str(), &info) == 0; ++n)
    path = fmt::format("{}/{}-{}{}", folder, name, n, kFileEnding);
  return path;
}

}  // namespace spadework::store
