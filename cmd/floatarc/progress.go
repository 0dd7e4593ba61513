package main

import (
	"os"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// patience is how long work may take before a bar tells how far it is.
const patience = 400 * time.Millisecond

// watch returns what tells a person how far long work is, with a bar on standard
// error, and what takes the bar away. Where nobody looks, there is none.
func watch(what string) (progress func(done, of int), finish func()) {
	if !term.IsTerminal(int(os.Stderr.Fd())) {
		return nil, func() {}
	}
	var lock sync.Mutex
	var bar *progressbar.ProgressBar
	start := time.Now()
	progress = func(done, of int) {
		lock.Lock()
		defer lock.Unlock()
		if bar == nil && time.Since(start) < patience {
			return
		}
		if bar == nil || bar.GetMax() != of {
			bar = progressbar.NewOptions(of, progressbar.OptionSetWriter(os.Stderr), progressbar.OptionSetDescription(what),
				progressbar.OptionClearOnFinish(), progressbar.OptionThrottle(50*time.Millisecond), progressbar.OptionSetWidth(30))
		}
		_ = bar.Set(done) // a bar that cannot be drawn costs nothing but the bar
	}
	return progress, func() {
		lock.Lock()
		defer lock.Unlock()
		if bar != nil {
			_ = bar.Clear()
		}
	}
}
