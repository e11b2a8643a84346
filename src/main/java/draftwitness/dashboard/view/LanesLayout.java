package draftwitness.dashboard.view;

import draftwitness.dashboard.LaneFrame;
import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.List;

/**
 * Where the lanes go: figures at the left, strips at the right, one time axis under all. Contacts get slim lanes, the
 * others share the rest. Immutable.
 */
final class LanesLayout {
    private static final int HEADER = 350;
    private static final int HEADER_NARROW = 300;
    private static final int VALUE_AXIS = 66;
    private static final int TIME_AXIS = 30;
    private static final int RIBBON = 46;
    private static final int LEAST_LANE = 66;
    private static final int SPACE = 6;

    /** Room above and below a plot, so that labels at its ends stay within the lane. */
    private static final int INSET = 9;

    private static final int RIGHT = 12;

    /**
     * Places of one lane.
     *
     * @param whole all of it
     * @param header figures
     * @param plot where readings are drawn; the value axis is left of it
     */
    record Place(Rectangle whole, Rectangle header, Rectangle plot) {}

    private final List<Place> places = new ArrayList<>();
    private final Rectangle timeAxis;

    /** A layout of lanes in an area, the time axis at its foot. */
    static LanesLayout withAxis(List<LaneFrame> lanes, Rectangle area, Look look) {
        Rectangle above = new Rectangle(area.x, area.y, area.width, area.height - look.px(TIME_AXIS));
        return new LanesLayout(lanes, above, look);
    }

    /** Height of the time axis. */
    static int axisHeight(Look look) {
        return look.px(TIME_AXIS);
    }

    /** A layout of lanes in an area, the time axis below it. */
    LanesLayout(List<LaneFrame> lanes, Rectangle area, Look look) {
        int header = look.px(area.width < look.px(1200) ? HEADER_NARROW : HEADER);
        int left = area.x + header + look.px(VALUE_AXIS);
        int width = Math.max(1, area.x + area.width - look.px(RIGHT) - left);
        int y = area.y;
        int tall = tallHeight(lanes, area.height, look);
        for (LaneFrame lane : lanes) {
            int h = lane.ribbon() ? look.px(RIBBON) : tall;
            int inset = lane.ribbon() ? 0 : look.px(INSET);
            places.add(new Place(
                    new Rectangle(area.x, y, left + width - area.x, h),
                    new Rectangle(area.x, y, header, h),
                    new Rectangle(left, y + inset, width, h - 2 * inset)));
            y += h + look.px(SPACE);
        }
        timeAxis = new Rectangle(left, y, width, look.px(TIME_AXIS));
    }

    private static int tallHeight(List<LaneFrame> lanes, int height, Look look) {
        int ribbons = (int) lanes.stream().filter(LaneFrame::ribbon).count();
        int tall = lanes.size() - ribbons;
        int free = height - ribbons * look.px(RIBBON) - lanes.size() * look.px(SPACE);
        return tall == 0 ? 0 : Math.max(look.px(LEAST_LANE), free / tall);
    }

    /** The least height at which every lane can be read; more lanes scroll. */
    static int leastHeight(List<LaneFrame> lanes, Look look) {
        int height = 0;
        for (LaneFrame lane : lanes) {
            height += look.px(lane.ribbon() ? RIBBON : LEAST_LANE) + look.px(SPACE);
        }
        return height;
    }

    List<Place> places() {
        return places;
    }

    Rectangle timeAxis() {
        return timeAxis;
    }

    /** Width of a strip, in user-space pixels. */
    int plotWidth() {
        return timeAxis.width;
    }
}
