package fullsize

import "math"

// printable is what is left free at the edges of a page that lies across, mm: most printers
// need less.
const printable = 6.0

// tiltStep and mostTilt say how the base line may be turned on the page to make room, degrees.
const (
	tiltStep = 5.0
	mostTilt = 45.0
)

// leastTold is to how much the radius is found where the arm is longer than the page, mm.
const leastTold = 1.0

// acrossCard lays the card out on a page that lies across, its words in what the swing leaves
// free: true to size, the base line turned if it must be, or else as large as can be; nil if
// there is no room.
func acrossCard(a *Arm) *card {
	known := &setWords{map[float64]float64{}, map[string]armTable{}}
	c := &card{Arm: a, paper: a.Paper.Turned(), known: known}
	for k := 0; float64(k)*tiltStep <= mostTilt; k++ {
		for _, way := range []float64{-1, 1} {
			c.tilt, c.radius = way*float64(k)*tiltStep, a.Length
			if c.settle() {
				return c
			}
			if k == 0 {
				break
			}
		}
	}
	return acrossLonger(a, known)
}

// acrossLonger is for an arm that is longer than the page.
func acrossLonger(a *Arm, known *setWords) *card {
	var best *card
	low, high := float64(leastRadius), math.Min(a.Length, inMM(a.Paper.Height))
	for high-low > leastTold {
		c := &card{Arm: a, paper: a.Paper.Turned(), known: known, radius: (low + high) / 2}
		if c.settle() {
			best, low = c, c.radius
		} else {
			high = c.radius
		}
	}
	return best
}

// settle finds a place for the axle at which there is room for everything.
func (c *card) settle() bool {
	wide, tall := inMM(c.paper.Width), inMM(c.paper.Height)
	left, right, down, up := c.reach()
	lowest := printable + math.Max(down*c.radius+1, axleCross+1)
	highest := tall - printable - math.Max(up*c.radius+1, axleCross+1)
	if lowest > highest || (left+right)*c.radius > wide-2*printable {
		return false
	}
	for _, y := range []float64{highest, lowest, (lowest + highest) / 2} {
		c.x, c.y = 0, y
		c.label(printable+2, tall-printable-2, c.hug)
		from, to := -math.Max(left*c.radius, baseReach/2), math.Max(right*c.radius, baseReach/2)
		for _, l := range c.labels {
			from, to = math.Min(from, l.box().x0), math.Max(to, l.box().x1)
		}
		leftmost, rightmost := printable-from, wide-printable-to
		if leftmost > rightmost {
			continue
		}
		for _, x := range []float64{leftmost, rightmost, (leftmost + rightmost) / 2} {
			c.x = x
			c.label(printable+2, tall-printable-2, c.hug)
			if c.pack() {
				return true
			}
		}
	}
	return false
}

// hug returns where a label begins that stands beside the swing at a height.
func (c *card) hug(side int, y float64) float64 {
	const band, clear, step = labelStep, 4, 0.5
	sign := float64(2*side - 1)
	out := math.Inf(-1)
	for k, steps := 0, int((c.High-c.Low)/step)+1; k <= steps; k++ {
		px, py := c.point(c.Low+(c.High-c.Low)*float64(k)/float64(steps), c.radius)
		if math.Abs(py-y) <= band {
			out = math.Max(out, sign*px)
		}
	}
	if math.IsInf(out, -1) { // moved beyond the swing: beside its end
		for _, angle := range []float64{c.Low, c.High} {
			px, _ := c.point(angle, c.radius)
			out = math.Max(out, sign*px)
		}
	}
	return sign * (out + clear)
}
