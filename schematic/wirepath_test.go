package schematic_test

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestAutoPathTakesThePlainestWay(t *testing.T) {
	pt := geom.Pt
	for _, c := range []struct {
		name, why  string
		a, b       geom.Point
		dirA, dirB geom.Dir
		want       geom.Path
	}{
		{"straight", "pins that face each other", pt(0, 0), pt(500, 0), geom.Right, geom.Left, geom.Path{pt(0, 0), pt(500, 0)}},
		{"corner", "one bend is enough", pt(0, 0), pt(500, 300), geom.Right, geom.Up, geom.Path{pt(0, 0), pt(500, 0), pt(500, 300)}},
		{"step", "offset pins meet half way", pt(0, 0), pt(500, 300), geom.Right, geom.Left, geom.Path{pt(0, 0), pt(250, 0), pt(250, 300), pt(500, 300)}},
		{"round", "both face right: go round outside", pt(0, 0), pt(0, 300), geom.Right, geom.Right, geom.Path{pt(0, 0), pt(50, 0), pt(50, 300), pt(0, 300)}},
		{"past", "pins pushed past each other are still left the way they face", pt(300, 0), pt(0, 300), geom.Right, geom.Left,
			geom.Path{pt(300, 0), pt(350, 0), pt(350, 150), pt(-50, 150), pt(-50, 300), pt(0, 300)}},
		{"same place", "nothing to draw, nothing to break", pt(75, 75), pt(75, 75), geom.Right, geom.Left, geom.Path{pt(75, 75), pt(75, 75)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, schematic.AutoPath(c.a, c.dirA, c.b, c.dirB), c.why)
		})
	}
}

func TestAutoPathLaws(t *testing.T) {
	rng := rand.New(rand.NewSource(1))
	dirs := []geom.Dir{geom.NoDir, geom.Right, geom.Down, geom.Left, geom.Up}
	grid := func() geom.Point { return geom.Pt(geom.Grid*rng.Intn(200), geom.Grid*rng.Intn(200)) }
	for range 5000 {
		a, b, da, db := grid(), grid(), dirs[rng.Intn(5)], dirs[rng.Intn(5)]
		p := schematic.AutoPath(a, da, b, db)
		require.Equal(t, a, p[0])
		require.Equal(t, b, p[len(p)-1])
		require.True(t, p.Orthogonal(), "%v", p)
		require.Equal(t, p, p.Clean())
		if a == b {
			continue
		}
		first, last := geom.DirOf(p[1].Sub(p[0])), geom.DirOf(p[len(p)-2].Sub(p[len(p)-1]))
		require.NotEqual(t, da.Vec().Neg(), first.Vec().Add(zeroIfNone(da)), "%v leaves %v back through the part", p, a)
		require.NotEqual(t, db.Vec().Neg(), last.Vec().Add(zeroIfNone(db)), "%v reaches %v through the part", p, b)
	}
}

// zeroIfNone moves the comparison off zero for ends that face nowhere.
func zeroIfNone(d geom.Dir) geom.Point {
	if d == geom.NoDir {
		return geom.Pt(9, 9)
	}
	return geom.Point{}
}

func BenchmarkAutoPath(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		schematic.AutoPath(geom.Pt(0, 0), geom.Right, geom.Pt(500, 300), geom.Left)
	}
}
