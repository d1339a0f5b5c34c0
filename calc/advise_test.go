package calc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

func adviceFor(change func(*calc.SizeQuestion)) calc.SizeQuestion {
	q := calc.SizeQuestion{Amp: 18, LengthMM: 4200, DropV: 0.5, AmbientC: 80, InsulationC: 105, Bundled: 12, Set: tables.BundleCFR183}
	if change != nil {
		change(&q)
	}
	return q
}

// ISO 10133 (from memory): 10 mm² 90 A at 105 °C in air of 30 °C; times
// √(25/75) for 80 °C, times 0.5 for 12 loaded (33 CFR 183.425) is 26.0 A, above
// the 25 A fuse that 18 A / 0.75 asks for; 6 mm² (60 A) bears 17.3 A. 1.82 mΩ/m
// (ISO 6722-1, from memory), 4.2 m at 91.5 °C: 9.79 mΩ, 0.176 V.
func TestAdviseWorkedExample(t *testing.T) {
	a, err := calc.Advise(adviceFor(nil))
	require.NoError(t, err)
	require.NotNil(t, a.Fuse)
	assert.Equal(t, 25.0, a.Fuse.Value)
	assert.Equal(t, tables.Blade, a.Fuse.Family)
	assert.Empty(t, a.Missing)
	require.Len(t, a.Sizes, 2)
	s := a.Sizes[0]
	assert.Equal(t, unit.MM2(10), s.Size)
	assert.InDelta(t, 26.0, s.Ampacity.Value, 0.05)
	assert.InDelta(t, 91.5, s.Warm.Value, 0.1)
	assert.InDelta(t, 0.176, s.Drop.Value, 0.001)
	assert.Equal(t, "fuse", s.DecidedBy)
	assert.Len(t, s.Reasons(), 4)
	assert.Equal(t, unit.AWG, a.Sizes[1].Size.System)
}

func TestAdviseByWhatDecides(t *testing.T) {
	cool := func(q *calc.SizeQuestion) { q.AmbientC, q.Bundled = 30, 1 }
	for _, c := range []struct {
		name    string
		change  func(*calc.SizeQuestion)
		fuse    float64
		metric  unit.Size
		decided string
	}{
		{"a long run", func(q *calc.SizeQuestion) { cool(q); q.Amp, q.LengthMM, q.DropV = 5, 6000, 0.1 }, 7.5, unit.MM2(6), "drop"},
		{"no drop asked for", func(q *calc.SizeQuestion) { cool(q); q.LengthMM, q.DropV = math.NaN(), math.NaN() }, 25, unit.MM2(1.5), "fuse"},
		// Heat goes with the square of the current: 18 A for a quarter of the
		// time warm as 9 A; the fuse lets 18 A pass all the same.
		{"in turns", func(q *calc.SizeQuestion) { cool(q); q.LengthMM, q.Duty = math.NaN(), 0.25 }, 20, unit.MM2(1), "fuse"},
		{"for good, said so", func(q *calc.SizeQuestion) { q.Duty = 1 }, 25, unit.MM2(10), "fuse"},
	} {
		a, err := calc.Advise(adviceFor(c.change))
		require.NoError(t, err, c.name)
		require.NotNil(t, a.Fuse, c.name)
		assert.Equal(t, c.fuse, a.Fuse.Value, c.name)
		assert.Equal(t, c.metric, a.Sizes[0].Size, c.name)
		assert.Equal(t, c.decided, a.Sizes[0].DecidedBy, c.name)
	}
}

func TestAdviseSaysWhatItCannotTell(t *testing.T) {
	for what, change := range map[string]func(*calc.SizeQuestion){
		"the current is missing":                 func(q *calc.SizeQuestion) { q.Amp = math.NaN() },
		"the ambient temperature is missing":     func(q *calc.SizeQuestion) { q.AmbientC = math.NaN() },
		"the insulation temperature is missing":  func(q *calc.SizeQuestion) { q.InsulationC = 0 },
		"0 loaded wires":                         func(q *calc.SizeQuestion) { q.Bundled = 0 },
		"1.5 is not a share of time":             func(q *calc.SizeQuestion) { q.Duty = 1.5 },
		"the drop allowed is -1, expected a num": func(q *calc.SizeQuestion) { q.DropV = -1 },
	} {
		_, err := calc.Advise(adviceFor(change))
		require.ErrorIs(t, err, calc.ErrUnknown, what)
		assert.ErrorContains(t, err, what)
	}
	a, err := calc.Advise(adviceFor(func(q *calc.SizeQuestion) { q.Amp = 1800 }))
	require.NoError(t, err)
	assert.Nil(t, a.Fuse)
	assert.False(t, a.Sizes[0].Size.Known())
	assert.Contains(t, a.Missing[0], "a fuse")
	a, err = calc.Advise(adviceFor(func(q *calc.SizeQuestion) { q.AmbientC = 110 }))
	require.NoError(t, err)
	assert.False(t, a.Sizes[0].Size.Known(), "hotter than the insulation bears")
}

// More current, more heat, more wires, more length or a tighter limit never
// gives a thinner wire.
func TestAdviseNeverThinsWithMoreStrain(t *testing.T) {
	area := func(q calc.SizeQuestion) float64 {
		a, err := calc.Advise(q)
		require.NoError(t, err)
		v, ok := a.Sizes[0].Size.AreaMM2()
		if !ok {
			return math.Inf(1)
		}
		return v
	}
	for amp := 1.0; amp < 60; amp += 3 {
		base := adviceFor(func(q *calc.SizeQuestion) { q.Amp, q.AmbientC, q.Bundled = amp, 40, 2 })
		for _, worse := range []func(*calc.SizeQuestion){
			func(q *calc.SizeQuestion) { q.Amp *= 1.3 }, func(q *calc.SizeQuestion) { q.AmbientC = 70 },
			func(q *calc.SizeQuestion) { q.Bundled = 8 }, func(q *calc.SizeQuestion) { q.LengthMM *= 2 },
			func(q *calc.SizeQuestion) { q.DropV /= 2 }, func(q *calc.SizeQuestion) { q.InsulationC = 90 },
		} {
			q := base
			worse(&q)
			assert.GreaterOrEqual(t, area(q), area(base), "%g A: %+v", amp, q)
		}
	}
}
