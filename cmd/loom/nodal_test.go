package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// TestCurrentsByHand computes the two small examples again from their files and
// the laws that README.md gives under "What the numbers mean": with tables
// typed in here and a dense matrix of another library.
func TestCurrentsByHand(t *testing.T) {
	for _, c := range []struct {
		file, state, closed string
		relay               float64 // coil voltage, V
	}{
		{"fan.loom.json", "Switched off", "", 0},
		{"fan.loom.json", "Fan on", "S1 K1", 12.366},
		{"lamp-faulty.loom.json", "Off", "", 0},
		{"lamp-faulty.loom.json", "Lamps on", "S1", 0},
	} {
		t.Run(c.state, func(t *testing.T) {
			path := filepath.Join(harnesses, c.file)
			var st stateJSON
			for _, x := range currentsOf(t, path).States {
				if x.Name == c.state {
					st = x
				}
			}
			n := byHand(t, path, c.closed, st)
			volt := n.solve(t, "G1.-")
			if k, ok := n.index["K1.86"]; ok {
				coil := volt[k] - volt[n.index["K1.85"]]
				require.InDelta(t, c.relay, coil, 0.01, "coil voltage")
				require.Equal(t, c.closed != "", coil >= 8.4, "the relay stands as assumed")
			}
			require.NotEmpty(t, st.Nets)
			for _, net := range st.Nets {
				for _, p := range net.Pins {
					require.NotNil(t, p.Volts, p.Pin)
					require.Contains(t, n.index, p.Pin)
					assert.InDelta(t, volt[n.index[p.Pin]], *p.Volts, 1e-7, "volts at %s", p.Pin)
				}
			}
			for _, w := range st.Wires {
				assert.InDelta(t, n.amps(volt, w.Name), *w.Amps, 1e-7, "amps in %s", w.Name)
				if rated, listed := bears[n.size[w.Name]]; listed && w.Temp != nil {
					h := 75 / 339.5 / rated / rated
					q := h * *w.Amps * *w.Amps
					assert.InDelta(t, w.Ambient+q*(234.5+w.Ambient)/(1-q), *w.Temp, 0.05, "temperature of %s", w.Name)
				}
			}
		})
	}
}

// network is a hand-made list of two-terminal pieces.
type network struct {
	index  map[string]int
	size   map[string]string // of wires
	pieces []piece
	start  float64 // V at all points, from which the solution is looked for
}

type piece struct {
	name string
	a, b int
	law  func(v float64) (amp, siemens float64)
}

func (n *network) node(name string) int {
	i, ok := n.index[name]
	if !ok {
		i = len(n.index)
		n.index[name] = i
	}
	return i
}

func (n *network) add(name, a, b string, law func(v float64) (amp, siemens float64)) {
	n.pieces = append(n.pieces, piece{name, n.node(a), n.node(b), law})
}

func ohm(r float64) func(float64) (float64, float64) {
	return func(v float64) (float64, float64) { return v / r, 1 / r }
}

// leak is the 1 nS beside every load that is not a plain resistance.
const leak = 1e-9

func motor(volt, amp float64) func(float64) (float64, float64) {
	return ohm(1 / (amp/volt + leak))
}

// lamp is R = (U²/P)·√(v/U), but never below a tenth of U²/P.
func lamp(volt, watt float64) func(float64) (float64, float64) {
	return filament(volt, watt, volt*volt/watt/10)
}

// filament is a lamp whose resistance when cold is known.
func filament(volt, watt, cold float64) func(float64) (float64, float64) {
	hot := volt * volt / watt
	return func(v float64) (float64, float64) {
		if r := hot * math.Sqrt(math.Abs(v)/volt); r > cold {
			return v/r + leak*v, 0.5/r + leak
		}
		return v/cold + leak*v, 1/cold + leak
	}
}

// diode is i = 0.03 V/R·ln(1 + e^((v−U)/0.03 V)), less its value at 0 V.
func diode(volt, r float64) func(float64) (float64, float64) {
	const knee = 0.03
	return func(v float64) (float64, float64) {
		soft := func(v float64) float64 { return knee / r * math.Log1p(math.Exp((v-volt)/knee)) }
		return soft(v) - soft(0) + leak*v, 1/r/(1+math.Exp((volt-v)/knee)) + leak
	}
}

func (n *network) solve(t *testing.T, reference string) []float64 {
	size, ground := len(n.index), n.index[reference]
	volt := make([]float64, size)
	for i := range volt {
		volt[i] = n.start
	}
	for range 300 {
		g, rhs := mat.NewDense(size, size, nil), mat.NewVecDense(size, nil)
		for _, p := range n.pieces {
			v := volt[p.a] - volt[p.b]
			amp, siemens := p.law(v)
			rest := amp - siemens*v
			for _, end := range []struct {
				at, other int
				sign      float64
			}{{p.a, p.b, 1}, {p.b, p.a, -1}} {
				g.Set(end.at, end.at, g.At(end.at, end.at)+siemens)
				g.Set(end.at, end.other, g.At(end.at, end.other)-siemens)
				rhs.SetVec(end.at, rhs.AtVec(end.at)-end.sign*rest)
			}
		}
		for j := range size {
			g.Set(ground, j, 0)
		}
		g.Set(ground, ground, 1)
		rhs.SetVec(ground, 0)
		var next mat.VecDense
		require.NoError(t, next.SolveVec(g, rhs))
		moved := 0.0
		for i := range volt {
			// Half a volt at a time: the curve of a diode is steep.
			step := max(-0.5, min(0.5, next.AtVec(i)-volt[i]))
			moved = max(moved, math.Abs(step))
			volt[i] += step
		}
		if moved < 1e-12 {
			return volt
		}
	}
	require.Fail(t, "the reference solution does not settle")
	return nil
}

func (n *network) amps(volt []float64, name string) float64 {
	for _, p := range n.pieces {
		if p.name == name {
			amp, _ := p.law(volt[p.a] - volt[p.b])
			return amp
		}
	}
	return math.NaN()
}

// handFile is as much of a harness file as the two examples need.
type handFile struct {
	Info struct {
		AmbientC float64 `json:"ambient_c"`
	} `json:"info"`
	Parts []struct {
		ID, Name, Kind string
		Values         map[string]float64
	}
	Wires []struct {
		Name, Size string
		A, B       struct{ Part, Pin string }
		LengthMM   float64 `json:"length_mm"`
	}
}

// ohmPerKM is the largest resistance of plain copper at 20 °C by ISO 6722-1
// (from memory).
var ohmPerKM = map[string]float64{
	"0.5 mm2": 37.1, "0.75 mm2": 24.7, "1 mm2": 18.5, "1.5 mm2": 12.7, "2.5 mm2": 7.60,
	"4 mm2": 4.71, "6 mm2": 3.14, "10 mm2": 1.82, "16 mm2": 1.16,
}

// crimp is the resistance of a new crimp by size (from memory).
var crimp = map[string]float64{
	"0.5 mm2": 0.5e-3, "0.75 mm2": 0.3e-3, "1 mm2": 0.3e-3, "1.5 mm2": 0.15e-3, "2.5 mm2": 0.15e-3,
	"4 mm2": 0.08e-3, "6 mm2": 0.08e-3, "10 mm2": 0.08e-3, "16 mm2": 0.08e-3,
}

// bears is the current that brings a wire in air of 30 °C to 105 °C: ISO 10133
// (from memory). ΔT/(234.5 + T) is as the square of the current.
var bears = map[string]float64{"0.75 mm2": 16, "1 mm2": 20, "1.5 mm2": 25, "2.5 mm2": 35, "4 mm2": 45, "6 mm2": 60, "10 mm2": 90, "16 mm2": 130}

// fuseOhm is the cold resistance by rating, from the same data sheet.
var fuseOhm = map[float64]float64{3: 0.03110, 5: 0.01785, 10: 0.00770, 15: 0.00480, 20: 0.00338, 25: 0.00252, 30: 0.00197, 40: 0.00144}

// fuseVolt is the drop at the rating, by rating; a fuse maker's data sheet for
// blade fuses (partly from memory).
var fuseVolt = map[float64]float64{3: 0.137, 5: 0.128, 10: 0.109, 15: 0.102, 20: 0.098, 25: 0.092, 30: 0.084, 40: 0.096}

// byHand makes the network of a file, with the contacts of the named parts
// closed and wires and fuses as warm as the tool says, whose word is checked
// against the currents: for fuses here, for wires by the caller.
func byHand(t *testing.T, path, closed string, st stateJSON) *network {
	warm, fuse := map[string]float64{}, map[string]elementJSON{}
	for _, w := range st.Wires {
		if w.Temp != nil {
			warm[w.Name] = *w.Temp
		}
	}
	for _, p := range st.Parts {
		for _, e := range p.Elements {
			if e.Type == "fuse" {
				fuse[p.Name] = e
			}
		}
	}
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	var f handFile
	require.NoError(t, json.Unmarshal(data, &f))
	n := &network{index: map[string]int{}, size: map[string]string{}}
	names := map[string]string{}
	for _, p := range f.Parts {
		names[p.ID] = p.Name
		at := func(pin string) string { return p.Name + "." + pin }
		value := func(name string, def float64) float64 {
			if v, ok := p.Values[name]; ok {
				return v
			}
			return def
		}
		contact := func(a, b string, r float64) {
			for _, name := range []string{a, b} {
				n.node(at(name))
			}
			for _, name := range strings.Fields(closed) {
				if name == p.Name {
					n.add(p.Name, at(a), at(b), ohm(r))
				}
			}
		}
		switch p.Kind {
		case "battery":
			volt, r := value("volt", 12.6), value("ohm", 0.006)
			if cca, ok := p.Values["cold_crank_amp"]; ok {
				r = 0.5 * (12.6 - 7.2) / cca // at 25 °C half of that at −18 °C (from memory)
			}
			n.add(p.Name, at("+"), at("-"), func(v float64) (float64, float64) { return (v - volt) / r, 1 / r })
		case "fuse-regular", "fuse-sf30":
			rating := value("amp", 0)
			require.Contains(t, fuseVolt, rating)
			e := fuse[p.Name]
			share := min(math.Abs(*e.Amps)/rating, 1)
			require.InEpsilon(t, fuseOhm[rating]+(fuseVolt[rating]/rating-fuseOhm[rating])*share*share, *e.Ohm, 1e-4, p.Name)
			n.add(p.Name, at("1"), at("2"), ohm(*e.Ohm))
		case "splice":
			n.node(at("1"))
		case "ground-body":
			n.add(p.Name, at("1"), "body metal", ohm(0.0005))
		case "radiator-fan":
			n.add(p.Name, at("33"), at("31"), motor(12, value("amp", 0)))
		case "lamp":
			n.add(p.Name, at("1"), at("2"), lamp(12, value("watt", 0)))
		case "relay-make":
			n.add(p.Name, at("86"), at("85"), ohm(90))
			contact("30", "87", 0.003)
		case "switch-toggle":
			contact("82", "82a", 0.01)
		case "switch-illuminated":
			contact("82", "82a", 0.01)
			n.add(p.Name, at("82a"), p.Name+"#led", ohm(680))
			n.add(p.Name, p.Name+"#led", at("31"), diode(2, 10))
		default:
			require.Fail(t, "no law for "+p.Kind)
		}
	}
	for _, w := range f.Wires {
		require.Contains(t, ohmPerKM, w.Size)
		tempC, ok := warm[w.Name]
		if !ok {
			tempC = f.Info.AmbientC
		}
		n.size[w.Name] = w.Size
		r := ohmPerKM[w.Size] * w.LengthMM * 1e-6 * (234.5 + tempC) / 254.5
		for _, end := range []string{names[w.A.Part], names[w.B.Part]} {
			if strings.HasPrefix(end, "SP") {
				r += 0.00015 // half of a splice (from memory)
			} else {
				r += crimp[w.Size]
			}
		}
		if w.LengthMM == 0 {
			r = 0.001 // not known: the stand-in
		}
		n.add(w.Name, names[w.A.Part]+"."+w.A.Pin, names[w.B.Part]+"."+w.B.Pin, ohm(r))
	}
	return n
}
