package geom_test

import (
	"encoding/json"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic/geom"
)

var orients = func() (all []geom.Orient) {
	for turns := range 4 {
		all = append(all, geom.Orient{Turns: turns}, geom.Orient{Turns: turns, Mirror: true})
	}
	return all
}()

func TestFourQuarterTurnsAreNone(t *testing.T) {
	p := geom.Pt(30, -70)
	for _, o := range orients {
		require.Equal(t, o, o.Turn(1).Turn(1).Turn(1).Turn(1))
		require.Equal(t, o, o.Flip().Flip())
		require.Equal(t, geom.Orient{Turns: 1}.Apply(o.Apply(p)), o.Turn(1).Apply(p), "a further turn acts on the sheet, not on the symbol")
		require.Equal(t, geom.Pt(-o.Apply(p).X, o.Apply(p).Y), o.Flip().Apply(p), "a flip mirrors what is seen")
	}
	require.Equal(t, geom.Pt(0, 10), geom.Orient{Turns: 1}.Apply(geom.Pt(10, 0)), "clockwise: right becomes down")
}

func TestDirectionsTurnLikePoints(t *testing.T) {
	for _, o := range orients {
		for d := geom.Right; d <= geom.Up; d++ {
			require.Equal(t, o.Apply(d.Vec()), o.Dir(d).Vec())
		}
		require.Equal(t, geom.NoDir, o.Dir(geom.NoDir))
	}
}

func TestSnapGoesToTheNearestGridPoint(t *testing.T) {
	for _, c := range []struct{ in, want geom.Point }{
		{geom.Pt(12, 13), geom.Pt(0, 25)},
		{geom.Pt(-12, -13), geom.Pt(0, -25)},
		{geom.Pt(37, 38), geom.Pt(25, 50)},
		{geom.Pt(100, -100), geom.Pt(100, -100)},
	} {
		require.Equal(t, c.want, c.in.Snap(geom.Grid), "%v", c.in)
	}
	require.Equal(t, geom.Pt(7, 9), geom.Pt(7, 9).Snap(1), "no grid, no snapping")
}

func TestCleanKeepsEndsAndShape(t *testing.T) {
	pt := geom.Pt
	for _, c := range []struct {
		why      string
		in, want geom.Path
	}{
		{"a point in the middle of a run goes", geom.Path{pt(0, 0), pt(5, 0), pt(10, 0)}, geom.Path{pt(0, 0), pt(10, 0)}},
		{"a repeated point goes", geom.Path{pt(0, 0), pt(0, 0), pt(0, 9)}, geom.Path{pt(0, 0), pt(0, 9)}},
		{"a spike is cut", geom.Path{pt(0, 0), pt(10, 0), pt(5, 0), pt(5, 5)}, geom.Path{pt(0, 0), pt(5, 0), pt(5, 5)}},
		{"a corner stays", geom.Path{pt(0, 0), pt(10, 0), pt(10, 10)}, geom.Path{pt(0, 0), pt(10, 0), pt(10, 10)}},
		{"both ends stay even when they meet", geom.Path{pt(0, 0), pt(10, 0), pt(0, 0)}, geom.Path{pt(0, 0), pt(0, 0)}},
	} {
		require.Equal(t, c.want, c.in.Clean(), c.why)
	}
}

func TestCleanIsIdempotentAndNeverLonger(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	for range 2000 {
		p := geom.Path{geom.Pt(0, 0)}
		for range 1 + rng.Intn(8) {
			q := p[len(p)-1]
			if rng.Intn(2) == 0 {
				q.X += geom.Grid * (rng.Intn(5) - 2)
			} else {
				q.Y += geom.Grid * (rng.Intn(5) - 2)
			}
			p = append(p, q)
		}
		c := p.Clean()
		require.Equal(t, c, c.Clean())
		require.Equal(t, p[0], c[0])
		require.Equal(t, p[len(p)-1], c[len(c)-1])
		require.True(t, c.Orthogonal(), "%v from %v", c, p)
		require.LessOrEqual(t, c.Length(), p.Length())
	}
}

func TestDistFindsTheNearestSegment(t *testing.T) {
	p := geom.Path{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 100)}
	d, seg, at := p.Dist(geom.Pt(40, 30))
	require.Equal(t, 30.0, d)
	require.Equal(t, 0, seg)
	require.Equal(t, geom.Pt(40, 0), at)
	d, seg, at = p.Dist(geom.Pt(130, 140))
	require.Equal(t, 50.0, d)
	require.Equal(t, 1, seg)
	require.Equal(t, geom.Pt(100, 100), at)
	d, _, _ = geom.Path{}.Dist(geom.Pt(1, 1))
	require.True(t, math.IsInf(d, 1))
}

func TestRectangles(t *testing.T) {
	a := geom.RectOf(geom.Pt(0, 0), geom.Pt(100, 50))
	require.Equal(t, a, geom.EmptyRect().Union(a))
	require.Equal(t, a, a.Union(geom.EmptyRect()))
	require.True(t, geom.EmptyRect().Empty())
	require.True(t, a.Contains(geom.Pt(100, 50)), "edges belong to it")
	require.True(t, a.Grow(1).Encloses(a))
	require.False(t, a.Encloses(a.Grow(1)))
	require.False(t, a.Encloses(geom.EmptyRect()))
	require.True(t, a.Touches(geom.RectOf(geom.Pt(100, 50), geom.Pt(200, 90))), "a shared corner touches")
	require.False(t, a.Touches(geom.RectOf(geom.Pt(101, 0), geom.Pt(200, 90))))
	turned := geom.Transform{Orient: geom.Orient{Turns: 1}, At: geom.Pt(10, 10)}.Rect(a)
	require.Equal(t, geom.RectOf(geom.Pt(-40, 10), geom.Pt(10, 110)), turned)
}

func TestPointsAreWrittenAsPairs(t *testing.T) {
	b, err := json.Marshal(geom.Pt(-25, 50))
	require.NoError(t, err)
	require.JSONEq(t, `[-25,50]`, string(b))
	for _, bad := range []string{`[1]`, `[1,2,3]`, `[1.5,2]`, `["1",2]`, `{}`, `[1e9,0]`, `[200000,0]`, `null`} {
		var p geom.Point
		require.Error(t, json.Unmarshal([]byte(bad), &p), bad)
	}
	var p geom.Point
	require.NoError(t, json.Unmarshal([]byte(`[ 100000, -100000 ]`), &p))
	require.Equal(t, geom.Pt(100000, -100000), p)
}

func TestAPlaceAtAShareOfAPath(t *testing.T) {
	p := geom.Path{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 300)}
	for share, want := range map[float64]geom.Point{0: geom.Pt(0, 0), 0.25: geom.Pt(100, 0), 0.5: geom.Pt(100, 100), 1: geom.Pt(100, 300), 2: geom.Pt(100, 300)} {
		require.Equal(t, want, p.At(share), "at %v", share)
	}
}

func TestTheMiddleIsHalfWayAlong(t *testing.T) {
	for _, c := range []struct {
		in   geom.Path
		want geom.Point
	}{
		{geom.Path{geom.Pt(0, 0), geom.Pt(100, 0)}, geom.Pt(50, 0)},
		{geom.Path{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 300)}, geom.Pt(100, 100)},
		{geom.Path{geom.Pt(7, 7), geom.Pt(7, 7)}, geom.Pt(7, 7)},
		{geom.Path{}, geom.Pt(0, 0)},
	} {
		require.Equal(t, c.want, c.in.Middle(), "%v", c.in)
	}
}
