package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"floatarc/gauge/fault"
	"floatarc/tanks/quantity"
)

// whyFlags are the readings as they are given.
type whyFlags struct {
	texts map[string]*string // by flag
	ask   bool
}

func newWhy(o *options) *cobra.Command {
	f := whyFlags{texts: map[string]*string{}}
	c := &cobra.Command{
		Use:   "why [FILE]",
		Short: "What may be wrong with a gauge, from what its needle does and a meter shows",
		Long: `why ranks what may be wrong with a gauge by how well it fits what the needle does and
what a meter shows: each with the figure that speaks for it, and with the next test,
what to disconnect and what must then show. Every reading is optional; without any it
asks, question by question. With FILE it takes the sender, the gauge and the wiring of
that rig; without one it knows of none.

Ohms are measured with the battery off. "open" stands for what a meter shows of an open
circuit.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			r, err := f.readings(c, o)
			if err != nil {
				return err
			}
			w := &whySheet{circuit: fault.Unknown(), readings: r}
			if len(args) > 0 {
				if w.job, err = o.load(args[0]); err != nil {
					return err
				}
				w.circuit = w.job.circuit()
			}
			if err := w.diagnose(); err != nil {
				return misusef("why: %v", err)
			}
			answer := w.answer()
			return o.print(c.OutOrStdout(), answer, answer.Causes, w.write)
		},
	}
	for _, q := range whyQuestions {
		f.texts[q.flag] = c.Flags().String(q.flag, "", q.usage)
	}
	c.Flags().BoolVar(&f.ask, "ask", false, "ask for what is not given, question by question, on standard input")
	return c
}

// readings takes the readings of the flags, and asks for others if it is asked to, or if
// there are none and somebody is there to answer.
func (f *whyFlags) readings(c *cobra.Command, o *options) (fault.Readings, error) {
	r := fault.Unread()
	given := 0
	for _, q := range whyQuestions {
		text := strings.TrimSpace(*f.texts[q.flag])
		if text == "" {
			continue
		}
		given++
		if err := q.take(&r, text); err != nil {
			return r, misusef("--%s %s: %v", q.flag, text, err)
		}
	}
	if f.ask || given == 0 && term.IsTerminal(int(os.Stdin.Fd())) {
		if o.json || o.csv {
			return r, misusef("why: questions with --json or --csv, expected the readings as flags")
		}
		return r, askWhy(c.InOrStdin(), c.ErrOrStderr(), &r, func(q whyQuestion) bool { return *f.texts[q.flag] != "" })
	}
	if given == 0 {
		return r, misusef("why: no reading, expected at least one, such as --needle full (floatarc why --help), or --ask")
	}
	return r, nil
}

// circuit is what a rig tells of a healthy one.
func (j *job) circuit() fault.Circuit {
	c := fault.Unknown()
	c.Sender = func(share float64) float64 { return j.rig.Level.Ohms(share * j.rig.Tank.Full) }
	// What is in the file of the gauge is that of one wired straight: a box that stores pairs
	// stands between them, and then the ranges need not go together.
	if e := j.file.Gauge.Ends; len(e) == 2 && j.rig.Conditioner.Stored == nil {
		c.GaugeEmpty, c.GaugeFull = e[0].Input, e[1].Input
		if e[0].Position > e[1].Position {
			c.GaugeEmpty, c.GaugeFull = c.GaugeFull, c.GaugeEmpty
		}
	}
	c.Wire = j.rig.Wiring.Input(0)
	return c
}

// A whySheet is the answer.
type whySheet struct {
	job      *job // nil without a rig
	circuit  fault.Circuit
	readings fault.Readings
	verdicts []fault.Verdict
	asked    []fault.Question
}

func (w *whySheet) diagnose() error {
	var err error
	if w.verdicts, err = w.circuit.Diagnose(w.readings); err != nil {
		return err
	}
	w.asked, err = w.circuit.Ask(w.readings)
	return err
}

// A causeAnswer is a cause that may be.
type whyCause struct {
	Cause   string `json:"cause"`
	Share   number `json:"share_pct"`
	Figure  string `json:"figure"`
	Against string `json:"against"`
	Next    string `json:"next_test"`
	Must    string `json:"must_show"`
}

type whyAnswer struct {
	Sure   bool       `json:"sure"`
	Causes []whyCause `json:"causes"`
	Cannot string     `json:"cannot_tell"`
	Ask    string     `json:"measure_next"`
	Then   string     `json:"then"`
}

// leastTold is the share below which a cause is not told.
const leastTold = 0.02

func (w *whySheet) answer() whyAnswer {
	a := whyAnswer{Sure: fault.Sure(w.verdicts), Causes: []whyCause{}, Cannot: w.cannot(), Ask: w.measureNext(), Then: w.then()}
	for i, v := range w.verdicts {
		if i > 0 && v.Share < leastTold {
			break
		}
		do, must := w.test(v.Cause)
		c := whyCause{Cause: string(v.Cause), Share: number(100 * v.Share), Next: do, Must: must}
		if len(v.For) > 0 {
			c.Figure = w.figure(v.For[0].Reading)
		}
		for _, a := range v.Against {
			if a.Reading != fault.Range { // told once, beside all of them
				c.Against = w.figure(a.Reading)
				break
			}
		}
		a.Causes = append(a.Causes, c)
	}
	return a
}

func (w *whySheet) write(out io.Writer) {
	a := w.answer()
	if w.job != nil {
		fmt.Fprintf(out, "%s\n", w.job.file.Name)
	}
	fmt.Fprint(out, "What may be wrong, by how well it fits.\n\n")
	g := grid{heads: []string{"fits %", "cause", "what speaks for it"}, notes: true}
	for _, c := range a.Causes {
		name := c.Cause
		if name == string(fault.None) {
			name = "nothing: the circuit is sound"
		}
		g.add(quantity.Fixed(float64(c.Share), 0), name, orDash(c.Figure))
	}
	g.write(out)
	fmt.Fprintln(out)
	writeWrapped(out, "", w.verdict())
	for _, line := range []string{w.besides(), w.otherSender()} {
		if line != "" {
			writeWrapped(out, "", line)
		}
	}
	standing := max(1, len(fault.Standing(w.verdicts)))
	for _, c := range a.Causes[:min(mostTests, standing, len(a.Causes))] {
		fmt.Fprintln(out)
		writeWrapped(out, "", causeHead(c.Cause)+".")
		if c.Against != "" {
			writeWrapped(out, "  - ", "Against it: "+c.Against+".")
		}
		writeWrapped(out, "  - ", "Test: "+c.Next)
		writeWrapped(out, "  - ", "Must show: "+c.Must)
	}
	fmt.Fprintln(out)
	if a.Ask != "" {
		writeWrapped(out, "", "What would tell most: "+a.Ask)
	}
	writeWrapped(out, "", a.Then)
	fmt.Fprintln(out)
	for _, caution := range whyCautions {
		writeWrapped(out, "! ", caution)
	}
}

// causeHead is how a cause stands above its test.
func causeHead(cause string) string {
	if cause == string(fault.None) {
		return "Nothing wrong with the circuit"
	}
	return capital(strings.TrimPrefix(cause, "a "))
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

// mostTests is how many of the causes that still stand are told with their tests.
const mostTests = 3

// whyCautions are what whoever measures must know.
var whyCautions = []string{
	"Ohms with the battery off. Never put a supply, a lamp or a bridge to plus on a sender in a tank: holding its wire to earth, at the tank's outside and away from vapour, is all there is to do there.",
	"Ventilate first; no spark near an open tank or a filler. On aircraft, on boats with petrol and wherever the law asks for it this is work for certified people.",
}

// took tells whether a reading was taken.
func took(v float64) bool { return !math.IsNaN(v) }
