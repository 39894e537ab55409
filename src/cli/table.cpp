#include "cli/table.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>

#include "base/text.h"

namespace spadework::cli {

bool styled() {
  static const bool yes = ::isatty(STDOUT_FILENO) != 0 && std::getenv("NO_COLOR") == nullptr;
  return yes;
}

std::string bold(std::string_view text) {
  return styled() ? "\033[1m" + std::string(text) + "\033[0m" : std::string(text);
}

std::string dim(std::string_view text) {
  return styled() ? "\033[2m" + std::string(text) + "\033[0m" : std::string(text);
}

std::string left(std::string_view text, int width) {
  std::string out(text);
  out.append(static_cast<std::size_t>(std::max(0, width - shown_width(text))), ' ');
  return out;
}

std::string right(std::string_view text, int width) {
  return std::string(static_cast<std::size_t>(std::max(0, width - shown_width(text))), ' ') +
         std::string(text);
}

std::string wrapped(std::string_view text, int width, int indent) {
  std::string out;
  int column = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    if (column > 0 && column + 1 + shown_width(word) > width) {
      out += "\n" + std::string(static_cast<std::size_t>(indent), ' ');
      column = indent;
    } else if (column > 0) {
      out += ' ';
      ++column;
    }
    out += word;
    column += shown_width(word);
    at = end + 1;
  }
  return out;
}

int page_width() {
  struct winsize size {};
  if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return 100;
  return std::clamp(static_cast<int>(size.ws_col), 60, 110);
}

}  // namespace spadework::cli
