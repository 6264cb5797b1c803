// Package access knows who may do what: the roles, the tokens that show them, and
// how many wrong tokens are heard from one address.
//
// A token is 160 random bits, one for each role. Only its SHA-256 is kept, in a file
// that its owner alone may read. A slow, salted hash is for secrets that people
// make up: of 2^160 equally likely tokens none is found by trying, salt or not, and a
// fast hash costs a request nothing.
package access

import "fmt"

// Role is what somebody may do. Each includes those before it.
type Role uint8

// The roles.
const (
	Nobody   Role = iota // sees nothing of the show
	Viewer               // scenes
	Panel                // and the panel, with all its acts
	Desk                 // and the desk, with all its actions
	Producer             // and health, entries by hand, metrics, tokens
)

// Roles are those that have a token, from the least to the highest.
var Roles = []Role{Viewer, Panel, Desk, Producer}

var roleNames = [...]string{"nobody", "viewer", "panel", "desk", "producer"}

// String is the role's name, as in addresses and files.
func (r Role) String() string { return roleNames[min(int(r), len(roleNames)-1)] }

// ParseRole reads the name of a role that has a token.
func ParseRole(name string) (Role, error) {
	for _, role := range Roles {
		if role.String() == name {
			return role, nil
		}
	}
	return Nobody, fmt.Errorf("there is no role %q; the roles are %v", name, Roles)
}

// May reports whether the role includes another.
func (r Role) May(needed Role) bool { return r >= needed }
