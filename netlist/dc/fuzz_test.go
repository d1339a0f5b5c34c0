package dc_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// FuzzSolve builds a network from bytes, with values over all that is allowed and beyond, changes it on the way and
// solves it after each change. Whatever comes, Solve ends, and either closes or says why not.
func FuzzSolve(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{2, 0, 1, 1, 0, 128, 2, 1, 0, 130, 128})
	f.Add([]byte{5, 0, 2, 1, 0, 200, 90, 3, 1, 2, 128, 4, 2, 3, 100, 5, 3, 0, 140, 6, 1, 0, 120, 7, 4, 0, 90, 8, 1, 4, 128})
	f.Add([]byte{3, 9, 2, 1, 0, 255, 0, 0, 1, 2, 255, 0, 2, 0, 0, 9, 1, 0, 10, 0, 20, 1, 1, 9, 2, 0})
	f.Add([]byte("a network of letters, which is as good as any other one for this purpose"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 2000 {
			return
		}
		in := tape{data}
		nodes := 1 + int(in.next())%24
		n := dc.New(nodes)
		_ = n.SetReference(dc.Node(in.next())%dc.Node(nodes+1) - 1)
		laws := map[dc.Element]dc.Device{}
		for len(in.data) > 0 {
			change(n, laws, &in)
		}
		var s dc.Solution
		check(t, n, laws, &s)
		for i, c := range data {
			if i == 4 || n.Elements() == 0 {
				break
			}
			e := dc.Element(int(c) % n.Elements())
			_ = n.SetOhm(e, in.ohm())
			if c%2 == 0 {
				_ = n.Open(e)
			} else {
				_ = n.Close(e)
			}
			check(t, n, laws, &s)
		}
	})
}

// tape hands out bytes, zeros after its end.
type tape struct{ data []byte }

func (t *tape) next() byte {
	if len(t.data) == 0 {
		return 0
	}
	b := t.data[0]
	t.data = t.data[1:]
	return b
}

// ohm runs over all allowed resistances and a little further.
func (t *tape) ohm() float64 { return math.Pow(10, float64(t.next())/255*22-9.5) }

// level is a value of either sign or zero over many sizes.
func (t *tape) level() float64 {
	b := float64(t.next()) - 128
	return math.Copysign(math.Expm1(math.Abs(b)/12), b)
}

func change(n *dc.Network, laws map[dc.Element]dc.Device, in *tape) {
	what := in.next()
	nodes := dc.Node(n.Nodes())
	a, b := dc.Node(in.next())%nodes, dc.Node(in.next())%nodes
	device := func(law dc.Device) {
		if e, err := n.Device(a, b, law); err == nil {
			laws[e] = law
		}
	}
	switch what % 12 {
	case 0, 1:
		_, _ = n.Resistor(a, b, in.ohm())
	case 2:
		_, _ = n.VoltageSource(a, b, in.level(), in.ohm())
	case 3:
		_, _ = n.CurrentSource(a, b, in.level())
	case 4:
		device(dc.ConstantCurrent{Amp: in.level(), KneeVolt: in.level()})
	case 5:
		device(dc.ConstantPower{Watt: in.level(), MinVolt: in.level()})
	case 6:
		device(dc.Diode{ForwardVolt: in.level(), OnOhm: in.ohm(), KneeVolt: in.level() / 10})
	case 7:
		device(dc.Filament{NominalVolt: in.level(), NominalOhm: in.ohm(), ColdOhm: in.ohm(), Exponent: in.level() / 10})
	case 8:
		device(dc.LimitedSource{Volt: in.level(), Ohm: in.ohm(), LimitAmp: in.level()})
	case 9:
		_ = n.Open(dc.Element(in.next()))
	case 10:
		_ = n.SetVolt(dc.Element(in.next()), in.level())
	case 11:
		device(dc.Diode{ForwardVolt: 0.7, OnOhm: 0.01})
	}
}

func check(t *testing.T, n *dc.Network, laws map[dc.Element]dc.Device, s *dc.Solution) {
	t.Helper()
	err := n.Solve(s)
	var (
		lost      *dc.NoReturnError
		unsettled *dc.ConvergenceError
		open      *dc.ClosureError
	)
	switch {
	case err == nil:
		require.True(t, s.Converged)
		checkCloses(t, n, s, laws)
	case errors.As(err, &lost):
		require.True(t, s.Islands[lost.Island].Floating)
	case errors.As(err, &unsettled):
		require.False(t, s.Converged)
		kind, ok := n.Kind(unsettled.Element)
		require.True(t, ok && kind == dc.KindDevice)
	case errors.As(err, &open):
		require.False(t, open.Amp <= open.Limit && open.Watt <= open.Limit)
	default:
		t.Fatalf("an error of no known kind: %v", err)
	}
	require.LessOrEqual(t, s.Iterations, dc.MaxIterations+1)
}
