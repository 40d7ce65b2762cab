package readiness

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// historyOf is a billet of the tests with its history as a question.
func historyOf(t testing.TB) *HistoryQuestion {
	t.Helper()
	setup := billet(t)
	setup.Wood.Radial, setup.Wood.Tangential = wood.Published(0.048), wood.Published(0.099)
	return &HistoryQuestion{Billet: Billet{Wood: setup.Wood, Width: 0.2, Thickness: setup.Thickness}, Setup: setup,
		Today: 400 * quantity.Day, Target: quantity.NormalBand(0.084, quantity.Moisture(0.006))}
}

// The answer is that of its parts: one posterior, asked for every step.
func TestJudgeHistory(t *testing.T) {
	q := historyOf(t)
	a, err := JudgeHistory(t.Context(), q)
	require.NoError(t, err)
	assert.Empty(t, q.Setup.Exact, "the setup of the caller stays as it is")
	require.Len(t, a.Verdicts, 3)
	require.Len(t, a.Dates, 3)
	for i, step := range Steps() {
		limits, target := LimitsFor(step, q.Billet.Thickness), TargetOf(q.Target)
		verdict, _, err := a.Posterior.Judge(step, limits, target, q.Today)
		require.NoError(t, err)
		assert.Equal(t, verdict, a.Verdicts[i])
		date, err := a.Posterior.ReadyDate(limits, target, q.Today, 0)
		require.NoError(t, err)
		assert.Equal(t, date.Median, a.Dates[i].Median)
		assert.GreaterOrEqual(t, date.Median.At, q.Today)
	}
	now, err := a.Posterior.Now(q.Today)
	require.NoError(t, err)
	assert.Equal(t, now.Mean, a.Now.Mean)
	assert.Len(t, a.Course.Times, 160)
	assert.Equal(t, a.Posterior.Horizon(), a.Course.Times[159])
	require.NotEmpty(t, a.Next.Options)
	require.Len(t, a.Settled.Moves, 4)

	open, err := a.Posterior.NextReading(LimitsFor(Resaw, q.Billet.Thickness), TargetOf(q.Target), q.Today)
	require.NoError(t, err)
	require.NotEqual(t, Ready, a.Verdicts[0].Outcome, "a shed is too damp for a shop at 8.4 %")
	assert.Equal(t, open.Best, a.Next.Best, "the first step that is not settled")
}

func TestJudgeHistoryNamesItsInputs(t *testing.T) {
	q := historyOf(t)
	q.Setup.StartMC = 2
	_, err := JudgeHistory(t.Context(), q)
	in, code := inputOf(t, err)
	assert.Equal(t, "start_mc_pct", in)
	assert.Equal(t, method.OutOfRange, code)
	q = historyOf(t)
	q.Today = 1e9 * quantity.Day
	_, err = JudgeHistory(t.Context(), q)
	in, _ = inputOf(t, err)
	assert.Equal(t, "exact/0", in)
}

// A difference is told where its band holds no zero.
func TestSenseOfACondition(t *testing.T) {
	for sense, band := range map[moisture.Sense]quantity.Band[quantity.Moisture]{
		moisture.CoreWetter:  {Value: 0.02, Low: 0.01, High: 0.03},
		moisture.ShellWetter: {Value: -0.02, Low: -0.03, High: -0.01},
		moisture.NotTold:     {Value: 0.01, Low: -0.01, High: 0.03},
	} {
		assert.Equal(t, sense, (&Condition{Gradient: band}).Sense())
	}
}
