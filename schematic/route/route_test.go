package route_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

func TestWays(t *testing.T) {
	tests := []struct {
		name, why string
		make      func(r *rig) *schematic.Wire
		want      geom.Path
	}{
		{"free", "with nothing near the way is the plain one", func(r *rig) *schematic.Wire {
			return r.wire(loose(2, 4), loose(20, 4))
		}, geom.Path{pt(2, 4), pt(20, 4)}},
		{"round a part", "round the nearer side, and not before the mouth of its pin", func(r *rig) *schematic.Wire {
			r.block(10, 11)
			return r.wire(loose(3, 10), loose(20, 10))
		}, geom.Path{pt(3, 10), pt(3, 7), pt(20, 7), pt(20, 10)}},
		{"beside a wire", "never on top of another wire, and clear of it", func(r *rig) *schematic.Wire {
			r.wire(loose(5, 10), loose(15, 10))
			return r.wire(loose(3, 10), loose(18, 10))
		}, geom.Path{pt(3, 10), pt(3, 12), pt(18, 12), pt(18, 10)}},
		{"off the title block", "and off the edge of the sheet", func(r *rig) *schematic.Wire {
			r.block(20, 46) // which is nearer to get round below
			return r.wire(loose(10, 47), loose(30, 47))
		}, geom.Path{pt(10, 47), pt(10, 42), pt(30, 42), pt(30, 47)}},
		{"clear of a symbol", "a line that all but touches a symbol looks as if it did", func(r *rig) *schematic.Wire {
			r.put(&schematic.Part{ID: r.id(), Kind: "block", Views: []schematic.View{{Sheet: r.sheet, At: pt(20, 20).Add(geom.Pt(3, 0))}}})
			return r.wire(loose(19, 10), loose(19, 30))
		}, geom.Path{pt(19, 10), pt(18, 10), pt(18, 30), pt(19, 30)}},
		{"two symbols of a part", "wires to one pin that is drawn twice do not share a way", func(r *rig) *schematic.Wire {
			p := r.block(10, 20)
			p = &schematic.Part{ID: p.ID, Kind: p.Kind, Views: append(p.Views, schematic.View{Key: "2", Sheet: r.sheet, At: pt(16, 20)})}
			r.put(p)
			r.wire(end(p, "1"), loose(16, 8), pt(10, 14), pt(16, 14))
			other := end(p, "1")
			other.View = "2"
			return r.wire(loose(16, 4), other)
		}, geom.Path{pt(16, 4), pt(18, 4), pt(18, 15), pt(16, 15), pt(16, 18)}},
		{"over a wire", "a crossing is cheaper than a long way round", func(r *rig) *schematic.Wire {
			r.wire(loose(10, 2), loose(10, 30))
			return r.wire(loose(5, 15), loose(15, 15))
		}, geom.Path{pt(5, 15), pt(15, 15)}},
		{"not on a bend", "crossing on a bend would look like a joint", func(r *rig) *schematic.Wire {
			r.wire(loose(10, 2), loose(30, 15), pt(10, 15))
			return r.wire(loose(5, 15), loose(10, 25))
		}, geom.Path{pt(5, 15), pt(5, 25), pt(10, 25)}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := newRig(60, 60)
			w := tt.make(r)
			a, z := r.tips(w)
			b := route.Of(r.doc, r.sheet)
			b.Without(w.ID)
			got := b.Way(a, z)
			require.Equal(t, tt.want, got.Path, tt.why)
			require.Zero(t, got.Faults)
		})
	}
}

func TestAWayIsFoundThroughWhatClosesIn(t *testing.T) {
	r := newRig(40, 40)
	for x := range 13 {
		r.block(3*x, 20) // a wall over the whole sheet and beyond
	}
	b := route.Of(r.doc, r.sheet)
	got := b.Way(route.Tip{At: pt(20, 5)}, route.Tip{At: pt(20, 35)})
	require.Zero(t, got.Faults, "round the end of the wall")
	for x := -40; x < 80; x += 2 {
		r.block(x, 10)
		r.block(x, 30)
	}
	for y := 10; y <= 30; y += 2 {
		r.block(-40, y)
		r.block(80, y)
	}
	b = route.Of(r.doc, r.sheet)
	got = b.Way(route.Tip{At: pt(20, 15)}, route.Tip{At: pt(20, 35)})
	require.Equal(t, pt(20, 15), got.Path[0])
	require.Equal(t, pt(20, 35), got.Path[len(got.Path)-1])
	require.NotZero(t, got.Faults, "shut in: the way runs through a part, and says so")
}

func TestPinsAreLeftTheWayTheyFace(t *testing.T) {
	r := newRig(60, 40)
	a, z := r.box(10, 10, 3), r.box(40, 10, 3)
	for _, pins := range [][2]string{{"1", "1"}, {"4", "4"}, {"1", "4"}, {"6", "1"}} {
		w := r.wire(end(a, pins[0]), end(z, pins[1]))
		tipA, tipZ := r.tips(w)
		b := route.Of(r.doc, r.sheet)
		b.Without(w.ID)
		got := b.Way(tipA, tipZ)
		require.Zero(t, got.Faults, "%v: %v", pins, got.Path)
		require.Equal(t, tipA.Dir, geom.DirOf(got.Path[1].Sub(got.Path[0])))
		require.Equal(t, tipZ.Dir, geom.DirOf(got.Path[len(got.Path)-2].Sub(got.Path[len(got.Path)-1])))
		w = &schematic.Wire{ID: w.ID, Name: w.Name, Sheet: w.Sheet, A: w.A, B: w.B, Via: route.Bends(got.Path, tipA, tipZ)}
		r.put(w)
		require.Equal(t, got.Path, r.doc.Path(w), "the bends draw the path")
	}
}

// Every way on a crowded sheet is orthogonal, joins its pins, is drawn by its
// bends, crosses no part, and comes out the same again.
func TestLawsOnACrowdedSheet(t *testing.T) {
	for seed := range uint64(4) {
		r := crowd(120, seed)
		ids := r.wires()
		vias, err := route.Anew(context.Background(), r.doc, r.sheet, ids, nil)
		require.NoError(t, err)
		slices.Reverse(ids)
		again, err := route.Anew(context.Background(), r.doc, r.sheet, ids, nil)
		require.NoError(t, err)
		require.Equal(t, vias, again, "the order they are named in does not matter")
		for id, via := range vias {
			w := *r.doc.Wire(id)
			w.Via = via
			r.put(&w)
		}
		faults := 0
		for w := range r.doc.Wires() {
			a, z := r.tips(w)
			path := r.doc.Path(w)
			require.True(t, path.Orthogonal())
			require.Equal(t, a.At, path[0])
			require.Equal(t, z.At, path[len(path)-1])
			b := route.Of(r.doc, r.sheet)
			b.Without(w.ID)
			faults += b.Price(path, a, z).Faults
			for p := range r.doc.Parts() {
				body := r.doc.Body(p, p.Views[0])
				for i := 1; i < len(path); i++ {
					require.False(t, body.Touches(geom.RectOf(path[i-1], path[i])), "%s through %s", w.Name, p.Name)
				}
			}
		}
		require.Zero(t, faults, "seed %d", seed)
	}
}

func TestWaysAreAsCheapAsAFullSearch(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 0))
	const n = 9
	compared := 0
	for round := range 300 {
		r := newRig(n, n)
		for range 2 {
			r.block(1+rng.IntN(n-2), 2+rng.IntN(n-4))
		}
		for range 3 {
			a, z := loose(rng.IntN(n), rng.IntN(n)), loose(rng.IntN(n), rng.IntN(n))
			if a.At != z.At {
				r.wire(a, z)
			}
		}
		b := route.Of(r.doc, r.sheet)
		a := route.Tip{At: pt(rng.IntN(n), rng.IntN(n)), Dir: geom.Dir(rng.IntN(5))}
		z := route.Tip{At: pt(rng.IntN(n), rng.IntN(n)), Dir: geom.Dir(rng.IntN(5))}
		if a.At == z.At {
			continue
		}
		got := b.Way(a, z)
		if plain := schematic.AutoPath(a.At, a.Dir, z.At, z.Dir); len(plain) == len(got.Path) && plain.Length() == got.Path.Length() {
			continue // with nothing near, the plain way, or one like it, leaves pins further than need be
		}
		compared++
		best := got.Cost
		every(a.At, z.At, -2, n+2, 3, func(p geom.Path) {
			if !faces(p[1].Sub(p[0]), a.Dir) || !faces(p[len(p)-2].Sub(p[len(p)-1]), z.Dir) {
				return
			}
			for i := 1; i < len(p); i++ {
				on := geom.RectOf(p[i-1], p[i])
				if i > 1 && on.Contains(a.At) || i < len(p)-1 && on.Contains(z.At) {
					return // runs over its own end
				}
			}
			if q := b.Price(p, a, z); q.Faults == 0 {
				best = min(best, q.Cost)
			}
		})
		require.Equal(t, best, got.Cost, "round %d: %v %v: %v", round, a, z, got.Path)
	}
	require.Greater(t, compared, 50)
}

func faces(step geom.Point, dir geom.Dir) bool {
	return dir == geom.NoDir || geom.DirOf(step) == dir
}

// every calls f for all paths from a to z with up to so many bends whose
// crossings lie between lo and hi.
func every(a, z geom.Point, lo, hi, bends int, f func(geom.Path)) {
	var go_ func(path geom.Path, level bool, left int)
	go_ = func(path geom.Path, level bool, left int) {
		last := path[len(path)-1]
		if level && last.Y == z.Y && last.X != z.X || !level && last.X == z.X && last.Y != z.Y {
			f(append(slices.Clone(path), z))
		}
		if left == 0 {
			return
		}
		for v := lo; v <= hi; v++ {
			q := geom.Pt(v*geom.Grid, last.Y)
			if !level {
				q = geom.Pt(last.X, v*geom.Grid)
			}
			if q != last {
				go_(append(path, q), !level, left-1)
			}
		}
	}
	for _, level := range []bool{true, false} {
		go_(geom.Path{a}, level, bends)
	}
}

func TestAFileWithoutBendsGetsThemWhereThePlainWayIsBad(t *testing.T) {
	r := newRig(40, 40)
	r.block(10, 10)
	bad, good, kept := r.wire(loose(2, 10), loose(20, 10)), r.wire(loose(2, 30), loose(20, 35)), r.wire(loose(2, 11), loose(20, 11), pt(5, 20))
	all := []schematic.ID{bad.ID, good.ID, kept.ID}
	d := route.Fill(r.doc, all)
	require.NotEmpty(t, d.Wire(bad.ID).Via)
	require.Same(t, good, d.Wire(good.ID), "its plain way is free")
	require.Same(t, kept, d.Wire(kept.ID), "bends that are given stay, whatever they cross")
	require.Same(t, d, route.Fill(d, all), "nothing is left to do")
	require.Equal(t, d.Wire(bad.ID).Via, route.Fill(r.doc, all).Wire(bad.ID).Via)
	require.Same(t, r.doc, route.Fill(r.doc, all[1:]), "a wire that is not asked for stays")
}

// Bends beyond the largest coordinate could be drawn but not saved.
func TestNoBendsLieOffAnySheet(t *testing.T) {
	r := newRig(40, 40)
	edge := geom.MaxCoord / geom.Grid
	w := r.wire(end(r.block(0, edge-2), "2"), end(r.block(20, edge-2), "2"))
	r.block(10, edge)
	a, z := r.tips(w)
	require.NotZero(t, route.Of(r.doc, r.sheet).Price(r.doc.Path(w), a, z).Faults, "its plain way runs through the block")
	d := route.Fill(r.doc, []schematic.ID{w.ID})
	for _, q := range d.Wire(w.ID).Via {
		require.True(t, q.InRange(), "%v", q)
	}
}

func TestLeadingAnewCanBeCancelled(t *testing.T) {
	r := crowd(60, 1)
	ids := r.wires()
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	_, err := route.Anew(ctx, r.doc, r.sheet, ids, func(of, n int) {
		require.Less(t, n, of)
		if calls++; calls == 10 {
			cancel()
		}
	})
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, 10, calls)
}

// What is shown while wires of several sheets are led goes forward all the time.
func TestProgressCountsOverAllSheets(t *testing.T) {
	r := crowd(20, 1)
	other := &schematic.Sheet{ID: r.id(), Name: "two", Order: 1, Width: 4000, Height: 3000}
	r.put(other)
	for i, id := range r.wires() {
		if w := *r.doc.Wire(id); i%3 == 0 {
			w.Sheet, w.A, w.B = other.ID, schematic.End{At: pt(10, 10+i)}, schematic.End{At: pt(60, 20+i)}
			r.put(&w)
		}
	}
	ids := r.wires()
	next := 0
	_, err := route.AnewAll(t.Context(), r.doc, append(ids, ids[0]), func(of, n int) {
		require.Equal(t, 2*len(ids), of, "each wire is led twice")
		require.Equal(t, next, n)
		next++
	})
	require.NoError(t, err)
	require.Equal(t, 2*len(ids), next)
}

func BenchmarkWay(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		r := crowd(n, 1)
		d := route.Fill(r.doc, r.wires())
		sheet := d.Sheets()[0].ID
		var wires []*schematic.Wire
		for w := range d.Wires() {
			wires = append(wires, w)
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			i := 0
			for b.Loop() {
				w := wires[i%len(wires)]
				i++
				board := route.Of(d, sheet)
				board.Without(w.ID)
				board.Way(route.TipOf(d, w, w.A), route.TipOf(d, w, w.B))
			}
		})
	}
}

func BenchmarkBoard(b *testing.B) {
	r := crowd(10000, 1)
	b.Run("survey", func(b *testing.B) {
		var puts []schematic.Put
		for it := range r.doc.All() {
			puts = append(puts, schematic.Put{Key: it.Key(), Item: it})
		}
		for b.Loop() {
			route.Of(schematic.New(r.doc.Library()).With(puts...), r.sheet)
		}
	})
	b.Run("carried on", func(b *testing.B) {
		route.Of(r.doc, r.sheet)
		p := *r.doc.Part(r.doc.Wire(r.wires()[0]).A.Part)
		d := r.doc.With(schematic.Put{Key: p.Key(), Item: &p})
		for b.Loop() {
			route.Of(d, r.sheet)
		}
	})
}

func BenchmarkFill(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		r := crowd(n, 1)
		ids := r.wires()
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				route.Fill(r.doc, ids)
			}
		})
	}
}

func BenchmarkAnew(b *testing.B) {
	r := crowd(1000, 1)
	ids := r.wires()
	for b.Loop() {
		if _, err := route.Anew(context.Background(), r.doc, r.sheet, ids, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// A board carried on from an earlier snapshot prices and finds what a fresh one
// does.
func TestABoardCarriedOnIsAFreshOne(t *testing.T) {
	r := crowd(80, 2)
	route.Of(r.doc, r.sheet)
	rng := rand.New(rand.NewPCG(3, 3))
	var parts []schematic.ID
	for p := range r.doc.Parts() {
		parts = append(parts, p.ID)
	}
	for range 25 {
		ids := r.wires()
		w := *r.doc.Wire(ids[rng.IntN(len(ids))])
		switch rng.IntN(3) {
		case 0:
			p := *r.doc.Part(parts[rng.IntN(len(parts))])
			p.Views = slices.Clone(p.Views)
			p.Views[0].At = p.Views[0].At.Add(pt(rng.IntN(5)-2, rng.IntN(5)-2))
			r.put(&p)
		case 1:
			w.Via = []geom.Point{pt(rng.IntN(60), rng.IntN(60))}
			r.put(&w)
		case 2:
			r.doc = r.doc.With(schematic.Put{Key: w.Key()})
		}
		fresh := schematic.New(r.doc.Library())
		for it := range r.doc.All() {
			fresh = fresh.With(schematic.Put{Key: it.Key(), Item: it})
		}
		for _, id := range r.wires()[:10] {
			a, z := r.tips(r.doc.Wire(id))
			one, two := route.Of(r.doc, r.sheet), route.Of(fresh, r.sheet)
			one.Without(id)
			two.Without(id)
			path := r.doc.Path(r.doc.Wire(id))
			require.Equal(t, two.Price(path, a, z), one.Price(path, a, z))
			require.Equal(t, two.Way(a, z).Price, one.Way(a, z).Price)
		}
	}
}

// A sheet on which wires lie in heaps is no reason to fail: the costs of a way
// through them are bounded.
func TestWayThroughHeapsOfWires(t *testing.T) {
	s := &schematic.Sheet{ID: schematic.ID{1}}
	b := route.Of(schematic.New(schematic.NewLibrary()).With(schematic.Put{Key: s.Key(), Item: s}), s.ID)
	for y := -1000; y <= 1000; y += geom.Grid {
		path := geom.Path{geom.Pt(-geom.MaxCoord, y), geom.Pt(geom.MaxCoord, y)}
		for i := range 60 {
			w := &schematic.Wire{ID: schematic.ID{2, byte(i), byte(y >> 8), byte(y)}, Sheet: s.ID, A: schematic.End{At: path[0]}, B: schematic.End{At: path[1]}}
			b.AddWire(w, path)
		}
	}
	found := b.Way(route.Tip{At: geom.Pt(-geom.MaxCoord, 0)}, route.Tip{At: geom.Pt(geom.MaxCoord, 0)})
	require.NotEmpty(t, found.Path)
}
