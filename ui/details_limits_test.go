package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheLimitsAreACommandAway(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	assert.Equal(t, "check.limits", r.recentFirst("limits")[0].ID)
	r.do("view.details") // out of sight
	r.do("check.limits")
	assert.True(t, r.actions.Find("view.details").Checked())
	assert.Empty(t, r.sess.Selection(), "they stand in the details of the drawing")
	require.NotNil(t, r.details.limits.first)
	assert.Same(t, r.details.limits.first.input, r.win.Canvas().Focused())
	at := r.details.limits.head.Position().Y - r.details.scroll.Offset.Y
	assert.True(t, at >= 0 && at < r.details.scroll.Size().Height/2, "their title is in sight, at %v", at)
}
