package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/draw"

	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
)

// The reference is golang.org/x/image/font/opentype, another reader of the
// same font file.
func TestMeasureAgreesWithOpentype(t *testing.T) {
	f, err := opentype.Parse(goregular.TTF)
	require.NoError(t, err)
	fc, err := opentype.NewFace(f, &opentype.FaceOptions{Size: 1000, DPI: 72})
	require.NoError(t, err)
	for _, s := range []string{"", "W12 1.5 BU/RD", "0.75 mm² 3,4 mΩ", "ÄÖÜß µ ° −"} {
		sum := 0.0
		for _, r := range s {
			adv, ok := fc.GlyphAdvance(r)
			require.True(t, ok)
			sum += float64(adv) / 64
		}
		assert.InDelta(t, sum/1000, draw.Measure(s, 1, false), 0.002*float64(len(s)+1), s)
	}
	b, _, ok := fc.GlyphBounds('H')
	require.True(t, ok)
	assert.InDelta(t, -float64(b.Min.Y)/64/1000, draw.CapHeight(1), 0.01)
}

func TestMissingRuneIsABoxAndNeverNothing(t *testing.T) {
	for _, r := range []rune{'\u23da', '漢', 0x1F600, -1, 0, 0x10FFFF + 5} {
		path, adv := draw.Outline(r, false)
		assert.NotEmpty(t, path, "%U", r)
		assert.Greater(t, adv, 0.3)
	}
}

func TestOhmSignIsDrawnAsOmega(t *testing.T) {
	a, wa := draw.Outline('\u2126', true)
	b, wb := draw.Outline('\u03a9', true)
	assert.Equal(t, b, a)
	assert.Equal(t, wb, wa)
	assert.True(t, draw.Has('\u2126', true))
}

func TestDigitsAreTabular(t *testing.T) {
	for _, bold := range []bool{false, true} {
		_, zero := draw.Outline('0', bold)
		for r := '1'; r <= '9'; r++ {
			_, w := draw.Outline(r, bold)
			assert.Equal(t, zero, w)
		}
	}
}

func TestOutlinesStayNearTheirAdvance(t *testing.T) {
	for r := rune('!'); r < 0x17f; r++ {
		path, adv := draw.Outline(r, false)
		for _, s := range path {
			if s.Verb == draw.Close {
				continue
			}
			assert.Greater(t, s.P.X, -0.3, "%c", r)
			assert.Less(t, s.P.X, adv+0.4, "%c", r)
			assert.Less(t, s.P.Y, draw.Descent(1)+0.12, "%c", r)
			assert.Greater(t, s.P.Y, -1.1, "%c", r)
		}
	}
}

func BenchmarkReadFont(b *testing.B) {
	for b.Loop() {
		draw.ReadFaceForBench()
	}
}
