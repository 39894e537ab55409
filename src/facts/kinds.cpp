#include "facts/kinds.h"

#include <algorithm>
#include <cctype>
#include <initializer_list>

namespace spadework::facts {
namespace {

bool ends_with_any(std::string_view text, std::initializer_list<std::string_view> endings) {
  for (std::string_view ending : endings) {
    if (text.size() > ending.size() && text.substr(text.size() - ending.size()) == ending) {
      return true;
    }
  }
  return false;
}

}  // namespace

std::string plain_name(std::string_view name) {
  std::string out;
  out.reserve(name.size());
  for (char c : name) {
    if (c == '-' || c == '_' || c == ' ' || c == '\'' || c == '.') continue;
    out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

std::string spaced(std::string id) {
  std::replace(id.begin(), id.end(), '-', ' ');
  return id;
}

std::vector<std::string> other_numbers(const std::string& plain) {
  std::vector<std::string> out;
  const std::size_t n = plain.size();
  if (n < 3) return out;
  if (plain.back() != 's') return {plain + "s", plain + "es"};
  if (ends_with_any(plain, {"ss"})) return {plain + "es"};
  if (ends_with_any(plain, {"ies"})) out.push_back(plain.substr(0, n - 3) + "y");
  if (ends_with_any(plain, {"oes", "ches", "shes", "xes", "ses"})) {
    out.push_back(plain.substr(0, n - 2));
  }
  out.push_back(plain.substr(0, n - 1));
  return out;
}

}  // namespace spadework::facts
