package main

import (
	"runtime/debug"
	"runtime/metrics"
	"time"
)

// How memory is given back: when the program has rested for restEvery, having
// worked enough since the last time for it to pay.
const (
	restEvery = 4 * time.Second
	restBelow = 2 << 20  // bytes allocated meanwhile still count as rest
	worthBack = 24 << 20 // bytes allocated since memory was given back last
	// Until the first rest, while all is made that stays, garbage may be no more
	// than this percentage of what is in use. Later the checks after an edit would
	// pay for it with time.
	thrift = 40
)

// giveBack returns memory to the system while nothing happens. Opening and
// checking a drawing takes several times what it needs afterwards, and the
// runtime alone would keep that for the next time.
func giveBack() {
	allocated := []metrics.Sample{{Name: "/gc/heap/allocs:bytes"}}
	var last, back uint64
	usual := debug.SetGCPercent(thrift)
	for range time.Tick(restEvery) {
		metrics.Read(allocated)
		now := allocated[0].Value.Uint64()
		if now-last < restBelow && now-back > worthBack {
			debug.FreeOSMemory()
			debug.SetGCPercent(usual)
			back = now
		}
		last = now
	}
}
