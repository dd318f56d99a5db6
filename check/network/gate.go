package network

import "slices"

// Stands reports whether a contact that no relay works is closed with the key,
// the engine and its own switch's throw as given: `on` does not mean start, and
// `engine` is idling or running. A relay's stands as at rest.
func (g *Gate) Stands(key, engine string, throw int) bool {
	switch g.By {
	case Hand:
		return throw > 0 && throw == g.Throw
	case Key:
		return slices.Contains(g.Key, key)
	case Tap:
		return slices.ContainsFunc(g.Live, func(when string) bool { return live(when, key, engine) })
	}
	return g.Rest
}

func live(when, key, engine string) bool {
	switch when {
	case "always", key:
		return true
	case "acc":
		return key == "on"
	case "engine":
		return engine == "idle" || engine == "running"
	}
	return false
}
