package draftwitness.dashboard.view;

import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import javax.swing.JComponent;
import javax.swing.RepaintManager;
import javax.swing.SwingUtilities;

/** A repaint manager that notes every component touched off the event dispatch thread. */
final class EdtGuard extends RepaintManager {
    private final Queue<Throwable> violations = new ConcurrentLinkedQueue<>();

    /** Installs a guard; put the manager back that was there before. */
    static EdtGuard install() {
        EdtGuard guard = new EdtGuard();
        RepaintManager.setCurrentManager(guard);
        return guard;
    }

    Queue<Throwable> violations() {
        return violations;
    }

    @Override
    public synchronized void addInvalidComponent(JComponent component) {
        check(component);
        super.addInvalidComponent(component);
    }

    @Override
    public void addDirtyRegion(JComponent component, int x, int y, int w, int h) {
        check(component);
        super.addDirtyRegion(component, x, y, w, h);
    }

    private void check(JComponent component) {
        if (!SwingUtilities.isEventDispatchThread()) {
            violations.add(new IllegalStateException(component + " touched on " + Thread.currentThread()));
        }
    }
}
