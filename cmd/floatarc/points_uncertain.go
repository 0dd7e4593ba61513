package main

import (
	"fmt"
	"io"
	"math"
	"slices"

	"floatarc/calibration"
	"floatarc/calibration/trials"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// A pointBand is how sure a point is.
type pointBand struct {
	Label  string  `json:"label"`
	Input  number  `json:"input_ohms"`
	Litres number  `json:"litres"`
	Band   bandRow `json:"litres_95"` // that the input stands for, in 95 of 100 rigs
	Error  bandRow `json:"error_95_pct"`
	Blind  bool    `json:"blind"` // the litres are those at which the sender comes to its stop
}

// A shareBand is the needle error at a share of the fuel between the marks.
type shareBand struct {
	Share  number  `json:"share"`
	Litres number  `json:"litres"`
	Error  bandRow `json:"error_95_pct"`
}

type pointsUncertain struct {
	Rigs    int         `json:"rigs"`
	Refused int         `json:"rigs_refused"`
	Seed    uint64      `json:"seed"`
	Points  []pointBand `json:"points"`
	Shares  []shareBand `json:"along"`
	Marks   bandRow     `json:"worst_95_marks_pct"`
	Best    bandRow     `json:"worst_95_best_pct"`
	Better  number      `json:"best_better"` // share of the rigs in which the best points are the better
	Overlap bool        `json:"bands_overlap"`
	Causes  []causeRow  `json:"causes"`
	drawn   string
}

// alongSteps is the number of even steps of the share at which the needle error is told.
const alongSteps = 10

// uncertainty draws rigs about the points of a sheet, which stay as they are.
func (s *pointsSheet) uncertainty(f uncertainFlags) (*pointsUncertain, error) {
	if s.rel.Contents.Attitude != (geometry.Attitude{}) {
		return nil, misusef("points: --uncertain at an attitude, expected level ground")
	}
	family, err := s.drawnFamily(f.usual, true)
	if err != nil {
		return nil, err
	}
	marks, best, err := s.bothLines()
	if err != nil {
		return nil, err
	}
	inputs := make([]float64, len(s.plan.points))
	for i, p := range s.plan.points {
		inputs[i] = p.InputOhms
	}
	var shares []float64
	for i := range alongSteps + 1 {
		shares = append(shares, float64(i)/alongSteps)
	}
	r, err := f.draw(family, func(rig *calibration.Rig) ([]float64, error) {
		g, err := rig.Glance(inputs, shares, s.plan.lines, marks, best)
		if err != nil {
			return nil, err
		}
		for i, p := range s.plan.points {
			g.Places[i] = 100 * (p.Position - g.Places[i])
		}
		return slices.Concat(g.Litres, g.Places, g.Errors[0], []float64{g.Worst[1], g.Worst[2], g.Worst[1] - g.Worst[2]}), nil
	})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", s.file.File, err)
	}
	return s.spread(f, r, shares), nil
}

// bothLines returns the indicators of the points at the marks and of the best points.
func (s *pointsSheet) bothLines() (marks, best *gauge.Lines, err error) {
	if best, err = s.lines(s.best.Points); err != nil {
		return nil, nil, err
	}
	if s.plan.method == atMarks {
		return s.plan.lines, best, nil
	}
	p, err := s.job.plan(planFlags{method: atMarks})
	if err != nil {
		return nil, nil, err
	}
	return p.lines, best, nil
}

// spread gathers the bands of figures: the litres of each point and how far off the needle
// is on it, the error at each share, the worst of both kinds of points, and by how much the
// best are better.
func (s *pointsSheet) spread(f uncertainFlags, r *trials.Result, shares []float64) *pointsUncertain {
	n := len(s.plan.points)
	u := &pointsUncertain{Rigs: f.count, Refused: r.Refused, Seed: f.seed, drawn: f.drawnWords(r)}
	var litres []int
	for i, p := range s.plan.points {
		row := pointBand{p.Label, number(p.InputOhms), number(p.Litres), bandOf(r.Band(i)), bandRow{unknown, unknown}, p.Blind}
		if !p.Blind {
			litres, row.Error = append(litres, i), bandOf(r.Band(n+i))
		}
		u.Points = append(u.Points, row)
	}
	for i, share := range shares {
		u.Shares = append(u.Shares, shareBand{number(share), number(s.rig.Dial.Litres(share)), bandOf(r.Band(2*n + i))})
	}
	worst := 2*n + len(shares)
	marks, best := r.Band(worst), r.Band(worst+1)
	u.Marks, u.Best, u.Overlap, u.Better = bandOf(marks), bandOf(best), marks.Overlaps(best), number(r.Share(worst+2, 0))
	u.Causes = causeRows(r, r.Causes(litres...))
	return u
}

func (u *pointsUncertain) write(w io.Writer, s *pointsSheet) {
	v := s.sys.Volume
	fmt.Fprintln(w)
	writeWrapped(w, "", fmt.Sprintf("How sure the points are: %s (seed %d). In 95 of 100 of them a point's reading stands for, and the needle on it is off by:", u.drawn, u.Seed))
	fmt.Fprintln(w)
	g := grid{heads: []string{"", "store Ω", "as measured\n" + v.Symbol, "in 95 of 100 rigs\n" + v.Symbol, "needle off by\n% of dial"}, labels: true}
	from := func(b bandRow, of func(float64) string) string {
		return of(float64(b.Low)) + " … " + of(float64(b.High))
	}
	signed := func(p float64) string { return quantity.Signed(p, 1) }
	for _, p := range u.Points {
		off := from(p.Error, signed)
		if p.Blind {
			off = "at its stop"
		}
		g.add(p.Label, one(float64(p.Input)), v.Number(float64(p.Litres)), from(p.Band, v.Number), off)
	}
	g.write(w)
	fmt.Fprint(w, "\nThe needle error along the tank, points and what is uncertain together.\n\n")
	along := grid{heads: []string{"share %", "in the tank\n" + v.Symbol, "in 95 of 100 rigs\n% of dial"}}
	for _, p := range u.Shares {
		along.add(quantity.Fixed(100*float64(p.Share), 0), v.Number(float64(p.Litres)), from(p.Error, signed))
	}
	along.write(w)
	fmt.Fprintln(w)
	writeWrapped(w, "", u.choiceWords())
	s.writeCauses(w, u.Causes, "the litres behind the points")
}

// choiceWords says whether the two kinds of points can be told apart.
func (u *pointsUncertain) choiceWords() string {
	of := func(b bandRow) string {
		return fmt.Sprintf("%s to %s %%", quantity.Fixed(float64(b.Low), 1), quantity.Fixed(float64(b.High), 1))
	}
	words := fmt.Sprintf("The worst error is %s of the dial with points at the marks, %s with the best points.", of(u.Marks), of(u.Best))
	better := quantity.Fixed(100*float64(u.Better), 0)
	switch {
	case math.IsNaN(float64(u.Better)):
		return words
	case u.Overlap && u.Better < sure:
		return words + fmt.Sprintf(" The bands overlap, and the best points are the better in no more than %s of 100 rigs: with what is uncertain the choice is not sure to gain anything.", better)
	case u.Overlap:
		return words + fmt.Sprintf(" The bands overlap; still, rig by rig the best points are the better in %s of 100.", better)
	}
	return words + fmt.Sprintf(" The bands do not overlap: the choice matters, whatever was measured badly. The best points are the better in %s of 100 rigs.", better)
}
