package main

import (
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"

	"floatarc/tanks"
)

// A weighed is a rig with its key at one value, and what comes of it.
type weighed struct {
	setting
	own bool // a row of the file's own value, which is none of the sweep

	job     *job
	refused error // why there is no such rig
	blind   bool  // an end of the dial lies where the sender sees nothing
	sweepRow
}

// addCurrent marks the value that the file holds, or adds it where it belongs in the order.
func (s *sweep) addCurrent() {
	now := s.figure.Value
	if math.IsNaN(now) {
		s.insertOwn(0, now)
		return
	}
	const same = 1e-9 // of the value: units turned round and back
	for _, w := range s.rows {
		if math.Abs(w.bare-now) <= same*math.Abs(now) {
			w.Current = true
			return
		}
	}
	falls := s.rows[0].bare > s.rows[len(s.rows)-1].bare
	place := slices.IndexFunc(s.rows, func(w *weighed) bool { return (w.bare > now) != falls })
	if place < 0 {
		place = len(s.rows)
	}
	s.insertOwn(place, now)
}

func (s *sweep) insertOwn(place int, now float64) {
	w := &weighed{setting: setting{now, s.read.of(now)}, own: true}
	w.Current = true
	s.rows = slices.Insert(s.rows, place, w)
}

// weigh finds out all rows, as many at once as there are processors.
func (s *sweep) weigh(o *options, file string, neverOver float64) {
	progress, finish := watch("values")
	defer finish()
	next := make(chan *weighed)
	var all sync.WaitGroup
	var lock sync.Mutex
	count := 0
	for range min(len(s.rows), runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for w := range next {
				w.find(o, file, s.figure, neverOver)
				lock.Lock()
				if count++; progress != nil {
					progress(count, len(s.rows))
				}
				lock.Unlock()
			}
		})
	}
	for _, w := range s.rows {
		next <- w
	}
	close(next)
	all.Wait()
}

// find reads the rig as --set would make it, so that the figures are those of the other
// commands, and weighs it.
func (w *weighed) find(o *options, file string, f *tanks.Figure, neverOver float64) {
	w.blank()
	with := *o
	with.set = slices.Clone(o.set)
	if !w.own {
		with.set = append(with.set, f.Assign(w.bare))
	}
	if w.job, w.refused = with.load(file); w.refused != nil {
		return
	}
	if w.refused = w.judge(neverOver); w.refused != nil {
		w.blank()
		return
	}
	w.light()
}

// judge finds the live band and how far the needle lies.
func (w *weighed) judge(neverOver float64) error {
	j, g := w.job, &w.sweepRow
	p, err := j.plan(planFlags{method: atMarks, neverOver: share(neverOver)})
	if err != nil {
		return err
	}
	v, err := j.survey(j.rig.Level, p, neverOver)
	if err != nil {
		return err
	}
	e, err := v.errorsSheet(p)
	if err != nil {
		return err
	}
	low, high := j.rig.Level.Live()
	g.LiveLow, g.LiveHigh = number(low), number(high)
	g.LiveLowShare, g.LiveHighShare = number(j.rig.Dial.Share(low)), number(j.rig.Dial.Share(high))
	g.Marks, g.MarksLitres, g.MarksLive, g.MarksAway = number(e.marks.Percent), number(e.marks.Litres), number(e.marks.LivePercent), number(e.marks.AwayPercent)
	g.Best, g.BestLitres, g.BestLive, g.BestAway = number(e.best.Percent), number(e.best.Litres), number(e.best.LivePercent), number(e.best.AwayPercent)
	if e.straight != nil {
		g.Straight = number(e.straight.Percent)
	}
	w.blind = j.blind()
	return nil
}

// light finds the low-fuel lamp, or why there is none.
func (w *weighed) light() {
	l := w.job.findLamp(nil)
	switch {
	case l.err != nil:
		w.NoLamp = tanks.Because("", l.err)
	case l.refused != nil:
		w.NoLamp = (&lampSheet{job: w.job, lampFound: l}).refusedWords()
	default:
		w.Warn = number(l.promise.Level(l.warning.Chosen))
	}
}

// why is why a rig is refused, without the file that the whole sweep is of; empty if it is not.
func (w *weighed) why(key string) string {
	if w.refused == nil {
		return ""
	}
	words := tanks.Because(key, w.refused)
	if w.job != nil {
		words = strings.TrimPrefix(words, w.job.file.File+": ")
	}
	return words
}
