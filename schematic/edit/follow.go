package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// tip is one end of a drawn wire: where it is and the way it leaves.
type tip struct {
	at  geom.Point
	dir geom.Dir
}

func tipOf(d *schematic.Doc, w *schematic.Wire, e schematic.End) tip {
	at, dir, _ := d.EndAt(w, e)
	return tip{at, dir}
}

// bendsOf returns the Via that draws exactly this path between the tips. It is
// nil only where the path chosen without bends is the same one.
func bendsOf(path geom.Path, a, b tip) []geom.Point {
	path = path.Clean()
	if len(path) > 2 {
		return slices.Clone(path[1 : len(path)-1])
	}
	if len(path) < 2 || slices.Equal(schematic.AutoPath(a.at, a.dir, b.at, b.dir), path) {
		return nil
	}
	// A straight wire between pins that do not face each other needs a point
	// on the way, or it would be led round.
	return []geom.Point{geom.Pt((a.at.X+b.at.X)/2, (a.at.Y+b.at.Y)/2)}
}

// follow returns a path drawn between oldA and oldB, led to new tips: the bends
// stay where they are, only the first and last one slide along to keep every
// segment orthogonal. Where that would lead the wire back through the part it
// leaves, the outermost stretch is chosen anew. The result may be nil: nothing
// worth keeping is left.
func follow(path geom.Path, oldA, oldB, a, b tip) geom.Path {
	if len(path) < 3 {
		// A straight run has no bends to keep, but the place of its middle.
		if len(path) == 2 && (a.at.X == b.at.X || a.at.Y == b.at.Y) && geom.DirOf(path[1].Sub(path[0])) == geom.DirOf(b.at.Sub(a.at)) {
			return geom.Path{a.at, b.at}
		}
		return nil
	}
	out := slices.Clone(path)
	last := len(out) - 1
	levelA, levelB := path[0].Y == path[1].Y, path[last].Y == path[last-1].Y
	out[0], out[last] = a.at, b.at
	slide(&out[1], a.at, levelA)
	slide(&out[last-1], b.at, levelB)
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
	if goesWrong(out, a.dir) && !goesWrong(path, oldA.dir) {
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
func leave(path, old geom.Path, oldA, a tip) geom.Path {
	if a.dir == geom.NoDir || !goesWrong(path, a.dir) || goesWrong(old, oldA.dir) {
		return path
	}
	level := old[0].Y == old[1].Y
	if level == (a.dir == geom.Left || a.dir == geom.Right) && len(path) > 3 {
		// The pin has been pushed past the first bend: push the stretch behind
		// that bend ahead of the pin.
		v := a.dir.Vec()
		ahead := a.at.Add(geom.Pt(v.X*schematic.PinPitch, v.Y*schematic.PinPitch))
		slide(&path[1], ahead, !level)
		slide(&path[2], ahead, !level)
		return path
	}
	if len(path) < 5 {
		return nil
	}
	head := schematic.AutoPath(a.at, a.dir, path[2], geom.DirOf(path[1].Sub(path[2])))
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

// lead returns the wire's bends after its ends went from where they are in
// before (wire old) to where they are in after (wire w). Carry, which may be
// nil, is the movement of the things that moved: a wire whose two ends both
// went along takes its bends along.
func lead(before *schematic.Doc, old *schematic.Wire, after *schematic.Doc, w *schematic.Wire, carry func(geom.Point) geom.Point) []geom.Point {
	if len(old.Via) == 0 {
		return nil
	}
	oldA, oldB := tipOf(before, old, old.A), tipOf(before, old, old.B)
	a, b := tipOf(after, w, w.A), tipOf(after, w, w.B)
	if a == oldA && b == oldB {
		return old.Via
	}
	if carry != nil && a.at == carry(oldA.at) && b.at == carry(oldB.at) {
		via := make([]geom.Point, len(old.Via))
		for i, q := range old.Via {
			via[i] = carry(q)
		}
		return via
	}
	path := schematic.RoutePath(oldA.at, oldA.dir, old.Via, oldB.at, oldB.dir)
	path = follow(path, oldA, oldB, a, b)
	if path == nil {
		return nil
	}
	return bendsOf(path, a, b)
}

// lead puts every wire that ends at one of the parts, and whose pins have
// moved since before, with its bends led along.
func (tx *Tx) lead(before *schematic.Doc, parts ...schematic.ID) error {
	var moved []schematic.Item
	for w := range tx.doc.Wires() {
		if len(w.Via) == 0 || !slices.Contains(parts, w.A.Part) && !slices.Contains(parts, w.B.Part) {
			continue
		}
		old := before.Wire(w.ID)
		if old == nil {
			continue
		}
		if via := lead(before, old, tx.doc, w, nil); !slices.Equal(via, w.Via) {
			c := *w
			c.Via = via
			if err := onSheet(w.Name, via...); err != nil {
				return err
			}
			moved = append(moved, &c)
		}
	}
	tx.Put(moved...)
	return nil
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
