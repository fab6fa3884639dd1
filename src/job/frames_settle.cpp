#include "job/frames_settle.hpp"
#include "job/roof_settle.hpp"
#include "units/sizes.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace belay {
namespace {

class FramesSettling {
 public:
  FramesSettling(raw::Drawing drawing, const Wall& wall) : drawing_(drawing), wall_(wall) {}

  FramesSettled run(std::string_view text, bool turned) {
    Run read = read_frames(text, drawing_);
    out_.slips = std::move(read.slips);
    if (!out_.slips.empty()) return std::move(out_);
    std::vector<Measured> lengths;
    for (const RunPiece& p : read.pieces) {
      const auto twin = std::ranges::find(lengths, p.mark, &Measured::mark);
      if (!p.mark.empty() && twin != lengths.end() && !near(twin->length, *p.length))
        slip(p, "frame-twice",
             fmt::format("frame `{}` is {} long here and {} before", p.mark, drawn(*p.length), drawn(twin->length)),
             "frames of one mark are alike");
      lengths.push_back({p.mark, *p.length});
    }
    const std::string wrong = adds_up(lengths, wall_.length(), as_read(), "frames");
    if (!wrong.empty()) {
      out_.slips.push_back({0, text.size(), sum(lengths) < wall_.length() ? "frames-too-short" : "frames-too-long",
                            fmt::format("wall {}: {}", wall_.name, wrong),
                            running_positions(lengths, as_read(), "a frame")});
      return std::move(out_);
    }
    if (turned) {
      std::ranges::reverse(lengths);
      std::ranges::reverse(read.pieces);
    }
    Length at = zero<Length>();
    for (std::size_t i = 0; i < lengths.size(); ++i) {
      Length end = i + 1 == lengths.size() ? wall_.length() : on_an_edge(at + lengths[i].length);
      // A joint is said where the frame that ends there stands in the text.
      if (i + 1 < lengths.size()) joint(end, read.pieces[turned ? i + 1 : i]);
      out_.frames.push_back({lengths[i].mark, at, end});
      at = end;
    }
    for (const ShopFrame& f : out_.frames) beside_openings(f, read.pieces);
    return std::move(out_);
  }

 private:
  raw::Drawing as_read() const { return drawing_ == raw::Drawing::none ? raw::Drawing::mm : drawing_; }
  std::string drawn(Length l) const { return as_drawn(l, as_read()); }
  void slip(const RunPiece& p, std::string code, std::string message, std::string help) {
    out_.slips.push_back({p.at, p.size, std::move(code), std::move(message), std::move(help)});
  }
  Length on_an_edge(Length joint) const {
    for (const Piece& p : wall_.pieces)
      if (near(p.to, joint)) return p.to;
    return joint;
  }
  // Neither an opening nor a braced length goes from one frame to the next.
  void joint(Length x, const RunPiece& said) {
    for (const Piece& p : wall_.pieces) {
      if (x <= p.from + same_place || x >= p.to - same_place) continue;
      const std::string place = fmt::format("{} to {}", drawn(p.from), drawn(p.to));
      if (p.opening)
        slip(said, "joint-in-an-opening",
             fmt::format("wall {}: the joint at {} goes through opening {} ({})", wall_.name, drawn(x), p.opening->mark,
                         place),
             "an opening stands in one frame, with studs of that frame beside it");
      if (p.brace)
        slip(said, "joint-in-a-brace",
             fmt::format("wall {}: the joint at {} goes through brace {} ({})", wall_.name, drawn(x), p.brace->name,
                         place),
             "two frames are not one braced length: two braces side by side, or another joint");
    }
  }
  static bool touch(Length a, Length b) { return apart(a, b) <= 2.0 * same_place; }
  // An opening that ends on a joint has no stud of its own frame there. One that is all that stands between two joints
  // is in no frame: its lintel goes in on site, from the one beside it to the other.
  void beside_openings(const ShopFrame& f, const std::vector<RunPiece>& said) {
    const auto i = static_cast<std::size_t>(&f - out_.frames.data());
    for (const Piece& p : wall_.pieces) {
      if (!p.opening || p.from < f.from - same_place || p.to > f.to + same_place) continue;
      const bool start = touch(p.from, f.from), end = touch(p.to, f.to);
      if (start == end) continue;
      if (start ? i == 0 : i + 1 == out_.frames.size()) continue;  // the wall's own end
      slip(said[i], "opening-beside-a-joint",
           fmt::format("wall {}: opening {} ends on the joint at {}: no stud of its own frame stands there", wall_.name,
                       p.opening->mark, drawn(start ? p.from : p.to)),
           "leave room for the stud; or, where the lintel goes in on site, let a length of its own stand for the "
           "opening");
    }
  }

  raw::Drawing drawing_;
  const Wall& wall_;
  FramesSettled out_;
};

}  // namespace

FramesSettled settle_frames(std::string_view text, raw::Drawing drawing, const Wall& wall, bool turned) {
  return FramesSettling(drawing, wall).run(text, turned);
}

}  // namespace belay
