//go:build window

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"loomwright/schematic/loomfile"
)

// BenchmarkStart takes the time from the start of the program to the demo's
// first sheet on the screen, as seen from outside, and the most memory the
// program held until it came to rest. Budget: 1 s, 200 MB. A virtual screen
// draws without a graphics card, which alone takes some 90 MB of libraries.
func BenchmarkStart(b *testing.B) {
	program, settings := build(b), b.TempDir()
	file := filepath.Join("..", "..", "testdata", "pickup"+loomfile.Ext)
	h := startIn(b, program, settings, file)
	h.answer(1, 0) // the caution of the first start
	h.waitSheet()
	h.kill()
	peak := 0.0
	for b.Loop() {
		h := startIn(b, program, settings, file)
		h.wait("the sheet", func() bool { return !h.sheet().Empty() })
		b.StopTimer()
		peak = max(peak, h.peakMB())
		h.kill()
		b.StartTimer()
	}
	b.ReportMetric(peak, "MB-peak")
}

var highWater = regexp.MustCompile(`VmHWM:\s+(\d+) kB`)

// peakMB waits until the program asks for no more memory and returns the most
// it held, in MB of 1e6 bytes.
func (h *hand) peakMB() float64 {
	h.t.Helper()
	const rest = 2 * time.Second
	last, since := 0, time.Now()
	h.wait("rest", func() bool {
		text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", h.app.Process.Pid))
		require.NoError(h.t, err)
		found := highWater.FindSubmatch(text)
		require.NotNil(h.t, found, "%s", text)
		kB, err := strconv.Atoi(string(found[1]))
		require.NoError(h.t, err)
		if kB != last {
			last, since = kB, time.Now()
		}
		return time.Since(since) > rest
	})
	return float64(last) * 1024 / 1e6
}
