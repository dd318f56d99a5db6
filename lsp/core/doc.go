// Package core answers what an editor asks about harness texts: where a name is
// declared, what may stand here, what flows in this wire. It speaks of paths
// and byte offsets and knows nothing of the protocol that editors speak.
package core
