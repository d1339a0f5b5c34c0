package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A notice that is still due when work begins must not keep the work's own
// words standing after its end.
func TestWorkThatHasEndedIsNotSpokenOf(t *testing.T) {
	r := newRig(t, lampsFile)
	idle := r.status.hint.full
	r.status.tell("saved")
	done := r.busy("Reading lamps")
	assert.Equal(t, "Reading lamps…", r.status.hint.full)
	done()
	assert.Equal(t, idle, r.status.hint.full)
}
