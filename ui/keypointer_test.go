package ui

import (
	"math/rand/v2"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/ui/action"
)

// take searches the tray as the keyboard does and takes the best match in hand.
func (r *rig) take(words string) {
	r.t.Helper()
	r.do("tool.part")
	test.Type(r.tray.search, words)
	r.tray.search.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Equal(r.t, placeTool, r.tools.Tool(), words)
}

// times presses a key several times.
func (r *rig) times(n int, mods action.Mod, name string) {
	for range n {
		r.combo(mods, name)
	}
}

// wiredTo tells which pins the wires join, in order of the wires' names.
func (r *rig) wiredTo() []string {
	var all []string
	for _, w := range sortedByName(r.doc().Wires()) {
		all = append(all, r.details.endText(w.A)+" to "+r.details.endText(w.B))
	}
	return all
}

// TestCircuitWithoutAMouse draws battery, fuse, switch, lamp and ground and
// wires them, all by keys.
func TestCircuitWithoutAMouse(t *testing.T) {
	r := newRig(t, "")
	r.take("battery")
	r.times(4, action.Shift, "Left")
	r.key(fyne.KeyReturn)
	r.take("fuse")
	r.times(3, action.Shift, "Up")
	r.times(2, action.Shift, "Right")
	r.key(fyne.KeyReturn)
	r.take("toggle")
	r.times(2, action.Shift, "Right")
	r.key(fyne.KeyReturn)
	r.take("lamp")
	r.times(3, action.Shift, "Down")
	r.key(fyne.KeyReturn)
	r.take("body ground")
	r.times(3, action.Shift, "Down")
	r.key(fyne.KeyReturn)
	r.key(fyne.KeyEscape)
	require.True(t, r.sheetView.byKey.on, "Esc puts the tool away first")
	require.Equal(t, 5, r.doc().Len(schematic.TypePart))

	// Pin to pin: Ctrl and an arrow goes to the next one that way.
	r.key(fyne.KeyW)
	wire := func(from func(), to func()) {
		from()
		r.key(fyne.KeyReturn)
		require.Equal(t, "wire.drawing", r.tools.State().Name())
		to()
		r.key(fyne.KeyReturn)
		require.Equal(t, "wire.idle", r.tools.State().Name())
	}
	ctrl := func(names ...string) func() {
		return func() {
			for _, n := range names {
				r.combo(action.Ctrl, n)
			}
		}
	}
	at := func(name string) func() {
		return func() {
			p, ok := r.holdOf(r.named(name))
			require.True(t, ok)
			r.movePointer(p, 0)
		}
	}
	wire(at("GND1"), ctrl("Up"))
	wire(ctrl("Up"), ctrl("Up"))
	wire(ctrl("Up"), ctrl("Left"))
	assert.Len(t, r.wiredTo(), 3)
	assert.Equal(t, "GND1 to E1 pin 2", r.wiredTo()[0])
	assert.Contains(t, r.wiredTo()[1], "E1 pin 1 to S1")
	assert.Contains(t, r.wiredTo()[2], "F1")
	r.key(fyne.KeyEscape)
	assert.Equal(t, selectTool, r.tools.Tool())
}

// With several things selected Ctrl and an arrow brings them into line, but not
// while the pointer of the keys is out.
func TestThePointerByKeysGoesToAPinWhateverIsSelected(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("M1"), r.named("K1"))
	before := r.doc()
	r.do("draw.pointer")
	at := r.sheetView.byKey.at
	r.combo(action.Ctrl, "Left")
	assert.Same(t, before, r.doc())
	assert.NotEqual(t, at, r.sheetView.byKey.at)
	assert.True(t, r.menu.item["arrange.left"].Disabled)
	r.do("draw.pointer")
	r.combo(action.Ctrl, "Left")
	assert.Equal(t, "align 2 items", r.sess.UndoLabel())
}

func TestPointerByKeysDoesWhatAHandDoes(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("draw.pointer")
	before := r.placeOf("G1")
	r.movePointer(before, 0)
	r.key(fyne.KeyReturn)
	assert.Equal(t, []string{"G1"}, r.selected())

	r.key(fyne.KeySpace) // takes hold
	r.times(2, 0, "Down")
	assert.NotNil(t, r.preview, "the drag is shown")
	r.key(fyne.KeyEscape)
	assert.Equal(t, before, r.placeOf("G1"), "Esc restores")
	assert.False(t, r.sheetView.byKey.held)

	r.movePointer(before, 0)
	r.key(fyne.KeySpace)
	r.times(2, 0, "Down")
	r.key(fyne.KeySpace)
	assert.Equal(t, before.Add(geom.Pt(0, 2*geom.Grid)), r.placeOf("G1"))

	// A step back in the middle of a drag ends it; the next Enter presses again.
	r.movePointer(r.placeOf("G1"), 0)
	r.key(fyne.KeySpace)
	r.times(2, 0, "Down")
	r.do("edit.undo")
	r.choose()
	r.movePointer(r.placeOf("G1"), 0)
	r.key(fyne.KeyReturn)
	assert.Equal(t, []string{"G1"}, r.selected())

	// Shift and Enter adds; Enter twice edits the details.
	r.movePointer(r.placeOf("M1"), 0)
	r.pointerKey(action.Key{Mods: action.Shift, Name: "Enter"})
	assert.Equal(t, []string{"G1", "M1"}, r.selected())
	r.key(fyne.KeyReturn)
	r.key(fyne.KeyReturn)
	assert.Equal(t, []string{"M1"}, r.selected())
	_, inField := r.win.Canvas().Focused().(*entry)
	assert.True(t, inField)

	// The mouse takes over; then the arrows move what is selected.
	r.win.Canvas().Focus(r.sheetView)
	require.True(t, r.sheetView.byKey.on)
	r.move(10, 10)
	assert.False(t, r.sheetView.byKey.on)
	was := r.placeOf("M1")
	r.combo(0, "Left")
	assert.Equal(t, was.Add(geom.Pt(-geom.Grid, 0)), r.placeOf("M1"))
}

// TestKeyPointerMarquee draws a frame over everything with Space and arrows.
func TestKeyPointerMarquee(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("draw.pointer")
	r.movePointer(geom.FromMM(2, 2), 0)
	r.key(fyne.KeySpace)
	r.movePointer(geom.FromMM(400, 280), 0)
	assert.Contains(t, r.status.hint.full, "Arrows drag")
	r.key(fyne.KeySpace)
	r.do("select.others")
	assert.Empty(t, r.selected(), "the frame took all there is")
}

func TestAKeyOfACommandThatIsOffSaysWhatItNeeds(t *testing.T) {
	r := newRig(t, lampsFile)
	r.key(fyne.KeyDelete)
	assert.Equal(t, "Delete: select something first", r.status.hint.full)
	r.combo(action.Shift, "C")
	assert.Equal(t, "Select the whole circuit: select a part or wire first", r.status.hint.full)
}

// TestButtonsThatNeedASelectionAreOff until there is one, and say so.
func TestButtonsThatNeedASelectionAreOff(t *testing.T) {
	r := newRig(t, lampsFile)
	turn := r.strip.turns[0]
	assert.True(t, turn.Disabled())
	assert.Equal(t, "Turn by 90°  (R)\nSelect something first", turn.tip())
	r.choose(r.named("M1"), r.named("K1"))
	assert.False(t, turn.Disabled())
	assert.Equal(t, "Turn by 90°  (R)", turn.tip())
	assert.False(t, r.canPlug(), "a motor and a relay are no connector halves")
	r.choose()
	assert.True(t, turn.Disabled())
	r.takePart("lamp")
	assert.False(t, turn.Disabled(), "the part in hand can be turned")
}

func TestSelectWhatLiesBeneath(t *testing.T) {
	r := newRig(t, lampsFile)
	at := r.placeOf("M1")
	require.NoError(t, r.try("cover", coverPart(r.sheet, at)))
	r.choose()
	r.do("draw.pointer")
	r.movePointer(at, 0)
	r.key(fyne.KeyU)
	first := r.selected()
	r.key(fyne.KeyU)
	second := r.selected()
	assert.NotEqual(t, first, second)
	assert.Contains(t, [][]string{first, second}, []string{"M1"})
	assert.Contains(t, r.status.hint.full, "on top of each other")
}

// coverPart lays a lamp on top of a place.
func coverPart(sheet schematic.ID, at geom.Point) func(*edit.Tx) error {
	return func(tx *edit.Tx) error { return edit.PlacePart(tx, "lamp", sheet, at, geom.Orient{}) }
}

// TestRandomKeys works the sheet by keys alone, most of them sensible: nothing
// panics, Escape never changes the document and ends all that is going on, and
// undoing all leads to the first document.
func TestRandomKeys(t *testing.T) {
	for seed := range uint64(3) {
		r := newRig(t, lampsFile)
		first, hand := r.doc(), rand.New(rand.NewPCG(seed, 16))
		for range 150 {
			r.win.Canvas().Focus(r.sheetView)
			switch n := hand.IntN(30); {
			case n < 12:
				arrow := []fyne.KeyName{fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown}[hand.IntN(4)]
				mod := []fyne.KeyModifier{0, fyne.KeyModifierShift, fyne.KeyModifierAlt, fyne.KeyModifierShortcutDefault}[hand.IntN(4)]
				r.typedKey(arrow, mod)
			case n < 17:
				r.key(fyne.KeyReturn)
			case n < 21:
				r.key(fyne.KeySpace)
			case n < 27:
				r.key([]fyne.KeyName{fyne.KeyS, fyne.KeyW, fyne.KeyN, fyne.KeyT, fyne.KeyG, fyne.KeyK, fyne.KeyU, fyne.KeyR, fyne.KeyM, fyne.KeyBackspace, fyne.KeyPeriod, fyne.KeyA, fyne.KeyC}[hand.IntN(13)])
			case n < 28:
				r.takePart("lamp")
			default:
				doc := r.doc()
				for range 8 {
					r.key(fyne.KeyEscape)
				}
				require.Same(t, doc, r.doc(), "Esc changes nothing")
				require.Equal(t, "select.idle", r.tools.State().Name())
				require.Nil(t, r.preview)
				require.False(t, r.sheetView.byKey.on)
				require.Empty(t, r.sess.Selection())
			}
			require.Nil(t, r.win.Canvas().Overlays().Top(), "no key of these opens a box")
		}
		for r.sess.UndoLabel() != "" {
			require.NoError(t, r.sess.Undo())
		}
		require.Same(t, first, r.doc())
	}
}
