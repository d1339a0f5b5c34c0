package ui

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/ui/tool"
)

func TestTheLadderStepsFromSourceToZero(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.choose(r.named("W5"))
	r.do("check.trace")
	assert.Equal(t, ladderTab, r.drawer.tab())
	c := r.study.chain
	require.NotNil(t, c)
	var names []string
	sum := 0.0
	for i, s := range c.steps {
		names = append(names, s.name)
		require.True(t, s.known, s.name)
		sum += s.drop()
		if i > 0 {
			assert.InDelta(t, c.steps[i-1].to, s.from, 1e-9, "each step begins where the last one ended")
		}
		if s.name == "M1" {
			assert.True(t, s.load)
			assert.InDelta(t, 17.5, s.amp, 1)
		}
	}
	for _, want := range []string{"W1", "F1", "W2", "F2", "W4", "W5", "M1", "W6"} {
		assert.Contains(t, names, want)
	}
	assert.InDelta(t, c.steps[0].from, sum, 1e-9, "the drops add up to the source's voltage")
	assert.InDelta(t, 0, c.steps[len(c.steps)-1].to, 1e-9)
	assert.Equal(t, "W4", c.steps[worstLoss(c.steps)].name, "the thin wire loses most")
	live := r.study.options().Live
	assert.True(t, live.Trace[r.named("W5")])
	assert.NotEmpty(t, live.Spots)
}

func TestLadderPointsAndJumps(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.do("sheet.next")
	r.trace(tool.Hit{Key: r.named("W5"), Ok: true})
	s := r.drawer.ladder.stairs
	require.NotNil(t, s.chain)
	r.drawer.ladder.apart.SetChecked(true)
	s.Resize(s.MinSize().AddWidthHeight(0, 80))
	var at tread
	for _, tr := range s.plan.treads {
		require.Equal(t, 1, tr.n, "every piece by itself")
		if s.chain.steps[tr.first].name == "W5" {
			at = tr
		}
	}
	e := mouse(fyne.NewPos(at.x+at.w/2, 40), 0, 0)
	s.MouseMoved(e)
	assert.Equal(t, r.named("W5"), r.sheetView.over.near.Key, "pointing at a step lights its item up")
	s.MouseOut()
	assert.False(t, r.sheetView.over.near.Ok)
	s.Tapped(&fyne.PointEvent{Position: e.Position})
	assert.Equal(t, []string{"W5"}, r.selected())
	assert.Equal(t, "Power", r.doc().Sheet(r.sheet).Name)
}

// Each step is as high as its volts: drawn heights stand in one proportion,
// and all together fill the height.
func TestStairsAreAsHighAsTheirVolts(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.trace(tool.Hit{Key: r.named("W5"), Ok: true})
	s := r.drawer.ladder.stairs
	s.Resize(fyne.NewSize(1000, 400))
	all := float32(0)
	for _, st := range s.chain.steps {
		fall, cut := s.plan.fall(st)
		assert.False(t, cut)
		assert.InDelta(t, st.drop()*s.plan.perVolt, float64(fall), 1e-3)
		all += fall
		if st.load {
			found := false
			for _, o := range s.box.Objects {
				if b, ok := o.(*canvas.Rectangle); ok && math.Abs(float64(b.Size().Height-fall)) < 0.1 {
					found = true
				}
			}
			assert.True(t, found, "the load is drawn %g V high", st.drop())
		}
	}
	assert.InDelta(t, s.bottom()-s.top(), all, 0.5)
	r.drawer.ladder.losses.SetChecked(true)
	all = 0
	lost := float32(0)
	for _, st := range s.chain.steps {
		fall, cut := s.plan.fall(st)
		assert.Equal(t, st.load, cut, "the load is cut short")
		all += fall
		if !st.load {
			lost += fall
		}
	}
	assert.InDelta(t, s.bottom()-s.top(), all, 0.5)
	assert.InDelta(t, all*2/3, lost, 0.5, "the losses take two thirds")
}

// steps of 12 V: wires with these drops, one load that uses the rest.
func stairSteps(before, after []float64) []step {
	var out []step
	v := 12.0
	add := func(d float64, load bool) {
		s := step{name: "W" + strconv.Itoa(len(out)), from: v, to: v - d, known: true, amp: 3, load: load}
		s.key.ID[0] = byte(len(out) + 1)
		out = append(out, s)
		v -= d
	}
	lost := 0.0
	for _, d := range append(slices.Clone(before), after...) {
		lost += d
	}
	for _, d := range before {
		add(d, false)
	}
	add(12-lost, true)
	for _, d := range after {
		add(d, false)
	}
	return out
}

func TestSmallDropsAreJoined(t *testing.T) {
	steps := stairSteps([]float64{0.001, 0.002, 0.3, 0.001, 0.004, 0.002}, []float64{0.001, 0.001})
	runs := func(p stairPlan) (n []int) {
		for _, tr := range p.treads {
			n = append(n, tr.n)
		}
		return n
	}
	p := planStairs(steps, 1000, 100, true, nil, false)
	assert.Equal(t, []int{2, 1, 3, 1, 2}, runs(p), "never across the load or a drop that counts")
	assert.Equal(t, 6, p.load)
	assert.Equal(t, 2, p.worst)
	sum := p.sum(p.treads[2])
	assert.InDelta(t, 0.007, sum.drop(), 1e-9, "a joined step loses what its pieces lose")

	assert.Equal(t, []int{2, 1, 1, 1, 1, 1, 2}, runs(planStairs(steps, 1000, 100, true, map[schematic.Key]bool{steps[3].key: true}, false)), "one opened")
	assert.Len(t, planStairs(steps, 1000, 100, false, nil, false).treads, len(steps), "all apart")

	unknown := slices.Clone(steps)
	unknown[4].known = false
	assert.Equal(t, []int{2, 1, 1, 1, 1, 1, 2}, runs(planStairs(unknown, 1000, 100, true, nil, false)), "what is not known is not small")
}

// The narrower the panel, the more is joined: the way from source to ground is
// seen at a glance.
func TestTheStaircaseFitsItsPanel(t *testing.T) {
	var before, after []float64
	for i := range 30 {
		before = append(before, 0.01+0.002*float64(i))
		after = append(after, 0.03-0.001*float64(i))
	}
	steps := stairSteps(before, after)
	for _, width := range []float32{3000, 1060, 700, 420} {
		p := planStairs(steps, width, 120, true, nil, false)
		last := p.treads[len(p.treads)-1]
		assert.LessOrEqual(t, last.x+last.w, width, "at %g", width)
		seen := 0
		for i, tr := range p.treads {
			assert.Equal(t, seen, tr.first, "no step is left out")
			seen += tr.n
			if i > 0 {
				assert.InDelta(t, p.treads[i-1].x+p.treads[i-1].w, tr.x, 0.01)
			}
			if steps[tr.first].load {
				for _, other := range p.treads {
					assert.LessOrEqual(t, other.w, tr.w, "the load stands out")
				}
			}
		}
		assert.Equal(t, len(steps), seen)
	}
}

func TestJoinedStepsOpenWithAPress(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[1].ID)
	r.trace(tool.Hit{Key: r.named("W5"), Ok: true})
	s := r.drawer.ladder.stairs
	s.Resize(fyne.NewSize(900, 200))
	at := slices.IndexFunc(s.plan.treads, func(tr tread) bool { return tr.n > 1 })
	require.GreaterOrEqual(t, at, 0)
	tr := s.plan.treads[at]
	s.MouseMoved(mouse(fyne.NewPos(tr.x+tr.w/2, 40), 0, 0))
	assert.Equal(t, tr.n, strings.Count(s.tip(tr), "from "), "the tip names every piece")
	before := len(s.plan.treads)
	s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(tr.x+tr.w/2, 40)})
	assert.Len(t, s.plan.treads, before+tr.n-1)
	r.drawer.ladder.apart.SetChecked(true)
	r.drawer.ladder.apart.SetChecked(false)
	assert.Len(t, s.plan.treads, before, "and joined again")
}

// Both sides of the load say what they lose, in sum what the load does not get.
func TestLossesOnTheWayThereAndBack(t *testing.T) {
	p := planStairs(stairSteps([]float64{0.2, 0.1}, []float64{0.05}), 900, 120, true, nil, false)
	l := p.lossStretches()
	require.Len(t, l, 2)
	assert.Contains(t, l[0].text[0], "0.3 V lost on the way there, 11.7 V arrive")
	assert.Contains(t, l[1].text[0], "50 mV lost on the way back")
	assert.Less(t, l[0].to, l[1].from, "the load lies between")
	a := p.ampStretches()
	require.Len(t, a, 1)
	assert.Contains(t, a[0].text[0], "3 A")
}

func TestRoundSteps(t *testing.T) {
	for v, want := range map[float64]float64{0.7: 1, 1: 1, 1.1: 2, 3: 5, 6: 10, 0.03: 0.05, 0: 0} {
		assert.InDelta(t, want, roundStep(v), 1e-12, v)
	}
	assert.Zero(t, roundStep(math.Inf(1)))
}
