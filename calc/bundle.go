package calc

import (
	"fmt"
	"math"
	"slices"

	"loomwright/calc/tables"
)

// Bundle is the diameter in mm of the smallest round hole that takes a set of
// wires, without tape, twist or sleeve.
type Bundle struct {
	Result
	// Exact tells the smallest possible diameter from an upper bound that a
	// known arrangement of the wires reaches.
	Exact bool
}

// BundleDiameter sizes a bundle from the outside diameters of its wires in mm.
// One to three wires are exact; equal wires follow the best known packings;
// other mixes are laid side by side, thickest first, and the value is the
// circle round that arrangement, so the wires do fit.
func BundleDiameter(diametersMM []float64) (Bundle, error) {
	if len(diametersMM) == 0 {
		return Bundle{}, missing("the wires of the bundle")
	}
	d := slices.Clone(diametersMM)
	for _, v := range d {
		if err := positive(quantity{"an outside diameter", v}); err != nil {
			return Bundle{}, err
		}
	}
	slices.Sort(d)
	slices.Reverse(d)
	geometry := tables.Source{Title: "plane geometry"}
	n := len(d)
	switch {
	case n == 1:
		return Bundle{Result{d[0], fmt.Sprintf("D = d = %s", mm(d[0])), geometry}, true}, nil
	case n == 2:
		v := d[0] + d[1]
		return Bundle{Result{v, fmt.Sprintf("D = %s + %s = %s", mm(d[0]), mm(d[1]), mm(v)), geometry}, true}, nil
	case n == 3:
		v := three(d[0], d[1], d[2])
		return Bundle{Result{v, fmt.Sprintf("D round %s, %s and %s = %s", mm(d[0]), mm(d[1]), mm(d[2]), mm(v)), geometry}, true}, nil
	}
	equal, listed, src := equalBundle(n, d[0])
	if d[n-1] >= d[0]*(1-1e-9) {
		return Bundle{Result{equal, fmt.Sprintf("%d wires of %s: D = %s · d = %s", n, mm(d[0]), num(equal/d[0]), mm(equal)), src}, listed}, nil
	}
	bound, how := equal, "as if all had the thickest"
	if n <= maxPacked {
		if v := packedDiameter(d); v < bound {
			bound, how, src = v, "laid side by side, thickest first", geometry
		}
	}
	return Bundle{Result{bound, fmt.Sprintf("%d wires of %s to %s %s: D at most %s", n, mm(d[n-1]), mm(d[0]), how, mm(bound)), src}, false}, nil
}

// three is the smallest circle round three circles, d1 >= d2 >= d3.
func three(d1, d2, d3 float64) float64 {
	// The third lies in the gap beside the other two if it is no larger than
	// the circle that touches both and their common circle.
	if d3 <= d1*d2*(d1+d2)/(d1*d1+d1*d2+d2*d2) {
		return d1 + d2
	}
	// Else all three touch each other and the outer circle (Descartes); with
	// diameters for radii the result is a diameter.
	k1, k2, k3 := 1/d1, 1/d2, 1/d3
	return 1 / math.Abs(k1+k2+k3-2*math.Sqrt(k1*k2+k2*k3+k3*k1))
}

// equalBundle is the diameter for n wires of d, and whether n itself is in the
// list; otherwise the next listed count is used, and beyond the list the
// hexagon of 3k(k+1)+1 wires, which 2k+1 wires span.
func equalBundle(n int, d float64) (float64, bool, tables.Source) {
	list := tables.Packing()
	if r, ok := list.Find(func(r tables.PackingRow) bool { return r.N >= n }); ok {
		return r.Ratio * d, r.N == n, list.Source
	}
	k := 1
	for 3*k*(k+1)+1 < n {
		k++
	}
	return float64(2*k+1) * d, false, tables.Source{Title: "hexagonal packing"}
}
