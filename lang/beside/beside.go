// Package beside runs functions beside each other and hands the first panic among
// them on to who waits for them: one that is caught nowhere ends the process, and
// whoever could catch it, an editor's server say, stands in another goroutine.
package beside

import "sync"

// Group are functions that run beside each other. Use [New].
type Group struct {
	wait  sync.WaitGroup
	once  sync.Once
	over  chan struct{}
	mutex sync.Mutex
	fault any // of the first that panicked, until it was handed on
}

// New is a group without functions.
func New() *Group { return &Group{over: make(chan struct{})} }

// Go runs a function beside the others.
func (g *Group) Go(f func()) {
	g.wait.Go(func() {
		defer g.hold()
		f()
	})
}

// hold keeps the first panic, and tells the others that it is over.
func (g *Group) hold() {
	fault := recover()
	if fault == nil {
		return
	}
	g.mutex.Lock()
	if g.fault == nil {
		g.fault = fault
	}
	g.mutex.Unlock()
	g.end()
}

func (g *Group) end() { g.once.Do(func() { close(g.over) }) }

// Over is closed once what the functions do is no use any more: one panicked, or
// Stop was called. Whoever waits for another function or for who takes what it
// makes must wait for this too.
func (g *Group) Over() <-chan struct{} { return g.over }

// Ended reports whether Over is closed.
func (g *Group) Ended() bool {
	select {
	case <-g.over:
		return true
	default:
		return false
	}
}

// Wait returns when all functions have, and panics if one did: with what that one
// panicked with, once.
func (g *Group) Wait() {
	g.wait.Wait()
	g.mutex.Lock()
	fault := g.fault
	g.fault = nil
	g.mutex.Unlock()
	if fault != nil {
		panic(fault)
	}
}

// Stop is Wait for functions that may have something left to do.
func (g *Group) Stop() {
	g.end()
	g.Wait()
}
