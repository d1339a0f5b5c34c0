package edit

import (
	"testing"

	"loomwright/schematic/geom"
)

// A wire too short for a fuse leads up to the side of a part: the fuse lies where
// neither of the two wires runs back past it.
func TestAFuseBesideAWireIsReachedByShortWays(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 500, 500), b.place("lamp", 800, 600)
	w := b.wire(at(f, "2"), at(e, "1"))
	b.must(fuseIn(w, EndA).Apply)
	key, _ := b.Doc().Named("W2")
	long, bends := 0, 0
	for _, w := range []geom.Path{b.Doc().Path(b.Doc().Wire(key.ID)), b.Doc().Path(b.Doc().Wire(w.ID))} {
		for i := 1; i < len(w); i++ {
			d := w[i].Sub(w[i-1])
			long += max(d.X, -d.X) + max(d.Y, -d.Y)
		}
		bends += len(w) - 2
	}
	if long > 600 || bends > 4 {
		t.Errorf("the two wires are %d long with %d bends", long, bends)
	}
}
