package netlist_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

// randomPlan is a wild but complete document: parts of every electrical sort,
// wired at random, with two operating states.
func randomPlan(rng *rand.Rand) (parts, wires, states []string) {
	var pins []string
	part := func(name, text string, names ...string) {
		parts = append(parts, name+" "+text)
		for _, n := range names {
			pins = append(pins, name+"."+n)
		}
	}
	between := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, rng.Float64()) }
	part("G1", fmt.Sprintf("battery volt=12.6 ohm=%.5f", between(0.004, 0.02)), "+", "-")
	if rng.IntN(2) == 0 {
		part("G2", "alternator volt=14.2 ohm=0.01 limit_amp=80", "B+", "B-")
	}
	for i := range 3 + rng.IntN(30) {
		name := func(prefix string) string { return fmt.Sprintf("%s%d", prefix, i+1) }
		switch rng.IntN(12) {
		case 0:
			part(name("F"), fmt.Sprintf("fuse-regular amp=%d", []int{5, 10, 20, 30}[rng.IntN(4)]), "1", "2")
		case 1:
			part(name("S"), "switch-toggle", "82", "82a")
		case 2:
			part(name("K"), "relay-change-over", "86", "85", "30", "87", "87a")
		case 3:
			part(name("E"), fmt.Sprintf("lamp watt=%.2f", between(2, 60)), "1", "2")
		case 4:
			part(name("M"), fmt.Sprintf("motor amp=%.2f", between(1, 20)), "33", "32")
		case 5:
			part(name("E"), fmt.Sprintf("load-two-pin amp=%.2f", between(0.1, 5)), "+", "-")
		case 6:
			part(name("V"), "diode", "A", "K")
		case 7:
			part(name("SP"), "splice", "1")
		case 8:
			part(name("GND"), "ground-body", "1")
		default:
			part(name("E"), fmt.Sprintf("load-resistive ohm=%.3f", between(1, 200)), "1", "2")
		}
	}
	sizes := []string{"0.5mm2", "1mm2", "2.5mm2", "AWG16", "SAE12"}
	for i := range len(pins) + rng.IntN(len(pins)) {
		wires = append(wires, fmt.Sprintf("W%d %s %s %s %.1f joints"+[]string{"", " flry"}[rng.IntN(2)], i+1, pins[rng.IntN(len(pins))], pins[rng.IntN(len(pins))],
			sizes[rng.IntN(len(sizes))], between(100, 4000)))
	}
	for _, engine := range []string{"off", "running"} {
		line := "state " + engine + " " + engine
		for _, p := range parts {
			if name, _, _ := strings.Cut(p, " "); name[0] == 'S' && name[1] != 'P' && rng.IntN(2) == 0 {
				line += " " + name + "=on"
			}
		}
		states = append(states, line)
	}
	return parts, wires, states
}

func join(lines ...[]string) string { return strings.Join(slices.Concat(lines...), "\n") }

// ohmOfBranch is the resistance of a closed linear branch, from the document's
// values alone but for fuses, whose resistance must agree with their current.
func ohmOfBranch(t testing.TB, s *netlist.Solution, i int) (float64, bool) {
	t.Helper()
	br := &s.Netlist.Branches[i]
	if br.Role == netlist.RoleWire {
		ohm, _ := s.OhmOf(i)
		tempC, _ := s.WireTempC(br.Wire.ID)
		c := br.Conductor
		assert.InEpsilon(t, c.JointOhm[0]+c.JointOhm[1]+c.WireOhm*(234.5+tempC)/(234.5+c.AmbientC), ohm, 1e-12, br.Name())
		return math.Max(ohm, 1e-6), true
	}
	if br.Role != netlist.RoleElement {
		return math.Max(br.Ohm, 1e-6), true
	}
	switch br.Element.Type {
	case schematic.ElemFuse:
		amp := br.Value("amp").Or(0)
		row, _, ok := tables.FuseElement(amp)
		share := math.Min(math.Abs(s.Amp[i])/amp, 1)
		ohm, known := s.OhmOf(i)
		assert.True(t, known)
		if len(s.Chattering) == 0 {
			assert.InEpsilon(t, row.ColdOhm+(row.DropV/amp-row.ColdOhm)*share*share, ohm, 1e-3, "%s at %g A", br.Name(), s.Amp[i])
		}
		return ohm, ok
	case schematic.ElemJoint, schematic.ElemContact, schematic.ElemOutput, schematic.ElemCoil, schematic.ElemResistor:
		return math.Max(br.Value("ohm").Or(0), 1e-6), true
	}
	return 0, false
}

// byElimination solves the same nodal equations densely with gonum, the devices
// replaced by the currents found for them. It returns NaN for nodes without a
// resistive way to the reference.
func byElimination(t testing.TB, s *netlist.Solution) []float64 {
	t.Helper()
	n := s.Netlist
	reach := make([]bool, len(n.Nodes))
	reach[n.Reference] = true
	linear := func(i int) (g, amp float64, ok bool) {
		br := &n.Branches[i]
		if !s.Closed[i] || br.A == br.B {
			return 0, 0, false
		}
		if br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemBattery {
			g = 1 / br.Value("ohm").Or(0)
			return g, g * br.Value("volt").Or(0), true
		}
		ohm, ok := ohmOfBranch(t, s, i)
		return 1 / ohm, 0, ok
	}
	for changed := true; changed; {
		changed = false
		for i := range n.Branches {
			br := &n.Branches[i]
			if _, _, ok := linear(i); ok && reach[br.A] != reach[br.B] {
				reach[br.A], reach[br.B], changed = true, true, true
			}
		}
	}
	row := make([]int, len(n.Nodes))
	size := 0
	for i := range n.Nodes {
		row[i] = -1
		if reach[i] && i != n.Reference {
			row[i] = size
			size++
		}
	}
	volt := make([]float64, len(n.Nodes))
	for i := range volt {
		if !reach[i] {
			volt[i] = math.NaN()
		}
	}
	if size == 0 {
		return volt
	}
	g, rhs := mat.NewDense(size, size, nil), mat.NewVecDense(size, nil)
	add := func(a, b int, v float64) {
		if a >= 0 && b >= 0 {
			g.Set(a, b, g.At(a, b)+v)
		}
	}
	into := func(node int, amp float64) {
		if node >= 0 {
			rhs.SetVec(node, rhs.AtVec(node)+amp)
		}
	}
	for i := range n.Branches {
		br := &n.Branches[i]
		a, b := row[br.A], row[br.B]
		if si, amp, ok := linear(i); ok {
			add(a, a, si)
			add(b, b, si)
			add(a, b, -si)
			add(b, a, -si)
			into(a, amp)
			into(b, -amp)
		} else if s.Closed[i] {
			into(a, -s.Amp[i])
			into(b, s.Amp[i])
		}
	}
	var x mat.VecDense
	require.NoError(t, x.SolveVec(g, rhs))
	for i, r := range row {
		if r >= 0 {
			volt[i] = x.AtVec(r)
		}
	}
	return volt
}

func TestRandomDocumentsAgainstElimination(t *testing.T) {
	compared := 0
	for seed := range uint64(200) {
		rng := rand.New(rand.NewPCG(seed, 1))
		parts, wires, states := randomPlan(rng)
		n := netlist.Build(doc(t, join(parts, wires, states)))
		for _, s := range n.SolveAll() {
			require.NoError(t, s.Err, "seed %d", seed)
			closes(t, s)
			coilsAgree(t, s)
			for i, v := range byElimination(t, s) {
				if math.IsNaN(v) {
					continue
				}
				compared++
				assert.InDelta(t, v, s.Volt[i], 1e-9*(1+math.Abs(v)), "seed %d, %s, %s", seed, s.State.Name, n.Nodes[i].Name)
			}
		}
		if t.Failed() {
			t.Fatalf("seed %d:\n%s", seed, join(parts, wires, states))
		}
	}
	assert.Greater(t, compared, 5000)
}

// coilsAgree checks that contacts stand where their coils hold them.
func coilsAgree(t testing.TB, s *netlist.Solution) {
	t.Helper()
	for i := range s.Netlist.Branches {
		br := &s.Netlist.Branches[i]
		if br.Role != netlist.RoleElement || br.Element.Coil == "" || br.A == br.B || len(s.Chattering) > 0 {
			continue
		}
		for _, j := range s.Netlist.PartBranches(br.Part.ID) {
			coil := &s.Netlist.Branches[j]
			if coil.Element.Name != br.Element.Coil {
				continue
			}
			v, _ := s.Across(j)
			switch v = math.Abs(v); {
			case v >= coil.Value("pull_in_volt").Or(0):
				assert.Equal(t, !br.Element.Break, s.Closed[i], "%s with %g V at its coil", br.Name(), v)
			case v <= coil.Value("drop_out_volt").Or(0):
				assert.Equal(t, br.Element.Break, s.Closed[i], "%s with %g V at its coil", br.Name(), v)
			}
		}
	}
}

// figures are the answers of a document by name, independent of IDs and order.
func figures(s *netlist.Solution) map[string]float64 {
	m := map[string]float64{}
	for i, node := range s.Netlist.Nodes {
		m["volt "+node.Name] = s.Volt[i]
	}
	for i := range s.Netlist.Branches {
		br := &s.Netlist.Branches[i]
		m["amp "+br.Name()+" "+br.Element.Name] = s.Amp[i]
	}
	return m
}

func TestIDsAndOrderDoNotMatter(t *testing.T) {
	for seed := range uint64(60) {
		rng := rand.New(rand.NewPCG(seed, 2))
		parts, wires, states := randomPlan(rng)
		first := netlist.Build(newPlan(t, "one").read(join(parts, wires, states)))
		rng.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		rng.Shuffle(len(wires), func(i, j int) { wires[i], wires[j] = wires[j], wires[i] })
		second := netlist.Build(newPlan(t, "two").read(join(parts, wires, states)))
		var nets [2][]string
		for i, n := range []*netlist.Netlist{first, second} {
			for _, net := range n.Nets {
				line := net.Name + ":"
				for _, node := range net.Nodes {
					line += " " + n.Nodes[node].Name
				}
				nets[i] = append(nets[i], line)
			}
		}
		require.Equal(t, nets[0], nets[1], "seed %d", seed)
		a, b := first.SolveAll(), second.SolveAll()
		for i := range a {
			same(t, seed, figures(a[i]), figures(b[i]), 0)
		}
		// Other names put everything into another order of computing.
		renamed := renamer(rng)
		third := netlist.Build(newPlan(t, "").read(renamed.Replace(" " + strings.ReplaceAll(join(parts, wires, states), "\n", "\n "))))
		for i, s := range third.SolveAll() {
			if len(s.Chattering) > 0 || len(a[i].Chattering) > 0 {
				assert.Equal(t, len(a[i].Chattering) > 0, len(s.Chattering) > 0)
				continue // which of its positions a chattering relay is shown in is arbitrary
			}
			want := map[string]float64{}
			for k, v := range figures(a[i]) {
				want[renamed.Replace(k)] = v
			}
			same(t, seed, want, figures(s), 1e-7)
		}
	}
}

// renamer turns the order of designations of one letter round.
func renamer(rng *rand.Rand) *strings.Replacer {
	var pairs []string
	for _, prefix := range []string{"F", "S", "E", "M", "V", "GND", "SP"} {
		shift := rng.IntN(40)
		for i := range 100 {
			pairs = append(pairs, fmt.Sprintf(" %s%d ", prefix, 99-i), fmt.Sprintf(" %s%d ", prefix, 100+(i+shift)%100),
				fmt.Sprintf(" %s%d.", prefix, 99-i), fmt.Sprintf(" %s%d.", prefix, 100+(i+shift)%100),
				fmt.Sprintf(" %s%d=", prefix, 99-i), fmt.Sprintf(" %s%d=", prefix, 100+(i+shift)%100))
		}
	}
	return strings.NewReplacer(pairs...)
}

func same(t testing.TB, seed uint64, want, got map[string]float64, tolerance float64) {
	t.Helper()
	require.Len(t, got, len(want))
	for k, v := range want {
		g, ok := got[k]
		require.True(t, ok, "seed %d: %s", seed, k)
		if math.IsNaN(v) || tolerance == 0 {
			require.Equal(t, math.Float64bits(v), math.Float64bits(g), "seed %d: %s %g %g", seed, k, v, g)
			continue
		}
		require.InDelta(t, v, g, tolerance*(1+math.Abs(v)), "seed %d: %s", seed, k)
	}
}
