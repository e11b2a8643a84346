/**
 * The window: Swing components that paint what the models say and pass on what hands do.
 *
 * <p>In: {@code DashboardModel} and what the program behind it fills in. Out: nothing but calls to those. Everything is
 * touched on the event dispatch thread only, except {@code ChartPicture}, which needs no display and any one thread.
 * Swing, the look and feel, the chart library (axes only) and the layout manager stay in here.
 */
@NullMarked
package draftwitness.dashboard.view;

import org.jspecify.annotations.NullMarked;
