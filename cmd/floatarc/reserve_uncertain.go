package main

import (
	"fmt"
	"io"
	"math"

	"floatarc/calibration"
	"floatarc/calibration/trials"
	"floatarc/tanks/quantity"
)

// reserveUncertain is how sure the promise of the lamp is.
type reserveUncertain struct {
	Rigs    int      `json:"rigs"`
	Refused int      `json:"rigs_refused"`
	Seed    uint64   `json:"seed"`
	Lights  bandRow  `json:"warn_95_l"` // in the tank on level ground when it lights
	More    bandRow  `json:"more_95_l"` // than promised, at the worst attitudes; below 0: less
	Kept    number   `json:"kept"`      // share of the rigs in which the promise is kept
	Earlier number   `json:"earlier_l"` // litres on level ground by which the lamp must light earlier to keep it in 95 of 100; null if none does
	On      number   `json:"earlier_on_ohms"`
	Level   *bandRow `json:"level_only_more_95_l"` // of a lamp for level ground alone
	Overlap bool     `json:"bands_overlap"`        // of the two lamps
	// LevelKept is the share of the rigs in which that lamp keeps the promise, too.
	LevelKept number     `json:"level_only_kept"`
	Causes    []causeRow `json:"causes"`
	drawn     string
}

// sure is the share of rigs in which a promise is to be kept.
const sure = 0.95

// takeUncertainty draws rigs about the lamp and its worst attitudes, which stay as they
// are.
func (s *lampSheet) takeUncertainty(f uncertainFlags) error {
	family, err := s.drawnFamily(f.usual, false) // the promise covers the tolerance itself
	if err != nil {
		return err
	}
	w := s.warning
	chosen, err := s.promise.Margin(w.Chosen.On, w.Latest.Attitude, w.Unusable.Attitude)
	if err != nil {
		return err
	}
	simple := chosen
	compare := w.LevelOnly.Possible() && !s.promise.Envelope.Level()
	if compare {
		if simple, err = s.promise.Margin(w.LevelOnly.On, w.LevelOnlyLatest.Attitude, w.Unusable.Attitude); err != nil {
			return err
		}
	}
	r, err := f.draw(family, func(rig *calibration.Rig) ([]float64, error) {
		of, err := chosen.Of(rig)
		if err != nil || !compare {
			return []float64{of.Lights, of.More, of.On}, err
		}
		level, err := simple.Of(rig)
		return []float64{of.Lights, of.More, of.On, level.More}, err
	})
	if err != nil {
		return fmt.Errorf("%s: %w", s.file.File, err)
	}
	s.Uncertain = s.spread(f, r, compare)
	return nil
}

// spread gathers the bands: the litres when the lamp lights, what is left more than
// promised, and the same of a lamp for level ground.
func (s *lampSheet) spread(f uncertainFlags, r *trials.Result, compare bool) *reserveUncertain {
	const lights, more, on, simple = 0, 1, 2, 3
	u := &reserveUncertain{
		Rigs: f.count, Refused: r.Refused, Seed: f.seed, drawn: f.drawnWords(r), Lights: bandOf(r.Band(lights)), More: bandOf(r.Band(more)),
		Kept: number(r.Share(more, -edge(s.job))), Causes: causeRows(r, r.Causes(more)), On: unknown, Earlier: unknown, LevelKept: unknown,
	}
	if compare {
		level := bandOf(r.Band(simple))
		u.Level, u.Overlap, u.LevelKept = &level, r.Band(simple).Overlaps(r.Band(more)), number(r.Share(simple, -edge(s.job)))
	}
	// The lamp must light with as much as all but a few of the rigs need.
	share := sure
	if s.promise.Falls() {
		share = 1 - sure
	}
	if needed := r.Quantile(on, share); !math.IsInf(needed, 0) {
		u.On, u.Earlier = number(needed), number(s.promise.LightsAt(needed)-float64(s.Warn))
	}
	return u
}

func (s *lampSheet) writeUncertainty(w io.Writer) {
	u := s.Uncertain
	if u == nil {
		return
	}
	v := s.sys.Volume
	fmt.Fprintln(w)
	words := fmt.Sprintf("How sure that is: %s (seed %d), the lamp set to %s Ω and its worst slopes held fixed. In 95 of 100 of them it lights with %s to %s on level ground, and on the worst slopes leaves between %s and %s of what is promised to spare (below 0: short of it). The promise is for the rig as measured; it holds in %s of 100 of these.",
		u.drawn, u.Seed, one(float64(s.On)), v.Number(float64(u.Lights.Low)), v.Text(float64(u.Lights.High)),
		quantity.Signed(v.Of(float64(u.More.Low)), 2), quantity.Signed(v.Of(float64(u.More.High)), 2)+" "+v.Symbol, quantity.Fixed(100*float64(u.Kept), 0))
	switch {
	case math.IsNaN(float64(u.On)):
		words += " No lamp keeps it in 95 of 100: in the others the float is at its top already with what it would need."
	case u.Earlier <= 0:
	default:
		words += fmt.Sprintf(" To keep it in 95 of 100 light it %s earlier, at %s Ω.", v.Text(float64(u.Earlier)), one(float64(u.On)))
	}
	if u.Level != nil {
		words += fmt.Sprintf(" A lamp for level ground alone leaves between %s and %s %s to spare;", quantity.Signed(v.Of(float64(u.Level.Low)), 2), quantity.Signed(v.Of(float64(u.Level.High)), 2), v.Symbol)
		if u.Overlap {
			words += " the two bands overlap."
		} else {
			words += " the two bands do not overlap."
		}
		words += fmt.Sprintf(" That one would keep the promise in %s of 100.", quantity.Fixed(100*float64(u.LevelKept), 0))
	}
	writeWrapped(w, "", words)
	s.writeCauses(w, u.Causes, "what the lamp leaves")
}
