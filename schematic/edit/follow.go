package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// bendsOf returns the Via that draws exactly this path between the tips. It is
// nil only for a straight one that is drawn so without bends.
func bendsOf(path geom.Path, a, b route.Tip) []geom.Point {
	path = path.Clean()
	if len(path) > 2 {
		return slices.Clone(path[1 : len(path)-1])
	}
	return route.Bends(path, a, b)
}

// follow returns a path drawn between oldA and oldB, led to new tips: the bends
// stay where they are, only the first and last one slide along to keep every
// segment orthogonal. Where that would lead the wire back through the part it
// leaves, the outermost stretch is chosen anew. The result may be nil: nothing
// worth keeping is left.
func follow(path geom.Path, oldA, oldB, a, b route.Tip) geom.Path {
	if len(path) < 3 {
		// A straight run has no bends to keep, but the place of its middle.
		if len(path) == 2 && (a.At.X == b.At.X || a.At.Y == b.At.Y) && geom.DirOf(path[1].Sub(path[0])) == geom.DirOf(b.At.Sub(a.At)) {
			return geom.Path{a.At, b.At}
		}
		return nil
	}
	out := slices.Clone(path)
	last := len(out) - 1
	levelA, levelB := path[0].Y == path[1].Y, path[last].Y == path[last-1].Y
	out[0], out[last] = a.At, b.At
	slide(&out[1], a.At, levelA)
	slide(&out[last-1], b.At, levelB)
	if out = leave(out, path, oldA, a); out == nil {
		return nil
	}
	back := slices.Clone(path)
	slices.Reverse(out)
	slices.Reverse(back)
	if out = leave(out, back, oldB, b); out == nil {
		return nil
	}
	slices.Reverse(out)
	// Both pins pushed past one stretch cannot both be mended.
	if goesWrong(out, a.Dir) && !goesWrong(path, oldA.Dir) {
		return nil
	}
	return out.Clean()
}

// slide puts a bend in line with its end, level or upright.
func slide(bend *geom.Point, end geom.Point, level bool) {
	if level {
		bend.Y = end.Y
	} else {
		bend.X = end.X
	}
}

// leave mends the first stretch of a path that no longer leaves its pin the
// way it faces, if the old path did. It returns nil when no bend can be kept.
func leave(path, old geom.Path, oldA, a route.Tip) geom.Path {
	if a.Dir == geom.NoDir || !goesWrong(path, a.Dir) || goesWrong(old, oldA.Dir) {
		return path
	}
	level := old[0].Y == old[1].Y
	if level == (a.Dir == geom.Left || a.Dir == geom.Right) && len(path) > 3 {
		// The pin has been pushed past the first bend: push the stretch behind
		// that bend ahead of the pin.
		v := a.Dir.Vec()
		ahead := a.At.Add(geom.Pt(v.X*schematic.PinPitch, v.Y*schematic.PinPitch))
		slide(&path[1], ahead, !level)
		slide(&path[2], ahead, !level)
		return path
	}
	if len(path) < 5 {
		return nil
	}
	head := schematic.AutoPath(a.At, a.Dir, path[2], geom.DirOf(path[1].Sub(path[2])))
	return append(head, path[3:]...)
}

// goesWrong reports whether the path's first step runs against or across dir.
func goesWrong(path geom.Path, dir geom.Dir) bool {
	for _, q := range path[1:] {
		if q != path[0] {
			return dir != geom.NoDir && geom.DirOf(q.Sub(path[0])) != dir
		}
	}
	return false
}

// onSheet refuses points that no file could hold.
func onSheet(what string, pts ...geom.Point) error {
	for _, q := range pts {
		if !q.InRange() {
			return fmt.Errorf("%s would lie more than %d m off the sheet's corner: keep it nearer", what, geom.MaxCoord/geom.PerMM/1000)
		}
	}
	return nil
}
