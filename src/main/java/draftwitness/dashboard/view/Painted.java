package draftwitness.dashboard.view;

import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;

/** A component that paints itself and can be named to screen readers. Event dispatch thread. */
abstract class Painted extends JComponent {
    private final transient AccessibleRole role;

    Painted(AccessibleRole role) {
        this.role = role;
    }

    @Override
    public AccessibleContext getAccessibleContext() {
        if (accessibleContext == null) {
            accessibleContext = new AccessibleJComponent() {
                @Override
                public AccessibleRole getAccessibleRole() {
                    return role;
                }
            };
        }
        return accessibleContext;
    }
}
