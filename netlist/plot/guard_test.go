package plot_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/schematic"
	"loomwright/schematic/draw"
)

func words(l *draw.List) (all []string) {
	for _, m := range l.Marks {
		if x, ok := m.Op.(*draw.Text); ok {
			all = append(all, x.S)
		}
	}
	return all
}

// The band is that of a 10 A blade to ISO 8820-3 (from memory).
func TestGuard(t *testing.T) {
	g := check.GuardPlot{FuseName: "F1", FuseWords: "Blade fuse, 10 A", WireName: "W2", WireWords: "1 mm²", RatingA: 10, SureA: 13.5,
		Band:  []check.BandPoint{{Amp: 13.5, EarlyS: 0.75, LateS: 600}, {Amp: 20, EarlyS: 0.15, LateS: 5}, {Amp: 35, EarlyS: 0.04, LateS: 0.5}, {Amp: 60, EarlyS: 0.02, LateS: 0.1}},
		Bears: []check.TimePoint{{Amp: 20.1, S: 1e6}, {Amp: 40, S: 7}, {Amp: 600, S: 0.02}}, BearA: 20,
		Loads:  []check.LoadPoint{{Amp: 5, States: []string{"Driving", "Idle"}}, {Amp: 0.01, States: []string{"Parked"}}},
		ShortA: schematic.Some(200), MostA: schematic.Some(400), Worst: check.TimePoint{Amp: 27, S: 30},
		Verdict: "Too slow.", Missing: []string{"the weather"}, Sources: []string{"a list"},
	}
	l := plot.Guard(g)
	for _, want := range []string{"F1 against W2", "Blade fuse, 10 A; W2: 1 mm²", "rating 10 A", "W2 for good 20 A", "Driving and 1 more 5 A", "short, far end, hot 200 A", "short, near end, cold 400 A",
		"F1 opens between these times", "W2 bears the current for so long", "slowest against the wire", "Too slow.", "Not assessed: the weather.", "Not drawn, as they are smaller: Parked 10 mA.", "Sources: a list.",
		"current, A", "time, s", "0.001", "100000", draw.Caution} {
		assert.Contains(t, words(l), want)
	}
	assert.Equal(t, l.Text(), plot.Guard(g).Text())
}

func TestGuardWithoutWire(t *testing.T) {
	l := plot.Guard(check.GuardPlot{FuseName: "F1", FuseWords: "Blade fuse, 10 A", RatingA: 10, SureA: 13.5, Band: []check.BandPoint{{Amp: 13.5, EarlyS: 0.75, LateS: 600}, {Amp: 60, EarlyS: 0.02, LateS: 0.1}}, Verdict: "No wire."})
	assert.Contains(t, words(l), "F1")
	assert.NotContains(t, words(l), "slowest against the wire")
}
