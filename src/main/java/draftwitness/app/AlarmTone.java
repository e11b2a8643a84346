package draftwitness.app;

import java.util.concurrent.Executor;
import java.util.function.Consumer;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.Clip;
import javax.sound.sampled.LineEvent;
import javax.sound.sampled.LineUnavailableException;

/**
 * The alarm's sound, made of sine tones: three rising pairs for a lockout, a quick trill for flutter, so that they are
 * told apart across a basement. Plays on the given executor.
 */
final class AlarmTone {
    /** Samples a second, one channel, 16 bit. */
    static final int RATE = 22_050;

    private static final double LOUDNESS = 0.6;
    private static final double EDGE_SECONDS = 0.008;

    private final Executor executor;
    private final Consumer<String> failed;

    AlarmTone(Executor executor, Consumer<String> failed) {
        this.executor = executor;
        this.failed = failed;
    }

    /** Plays the sound of an alarm once; any thread. */
    void play(AlarmJudge.Alarm alarm) {
        executor.execute(() -> {
            try {
                byte[] samples = samples(alarm);
                Clip clip = AudioSystem.getClip();
                clip.addLineListener(e -> {
                    if (e.getType().equals(LineEvent.Type.STOP)) {
                        clip.close();
                    }
                });
                clip.open(new AudioFormat(RATE, 16, 1, true, false), samples, 0, samples.length);
                clip.start();
            } catch (LineUnavailableException
                    | IllegalArgumentException
                    | IllegalStateException
                    | SecurityException e) {
                failed.accept("The alarm cannot sound: this computer has no free sound output (" + e.getMessage()
                        + "). Look at the screen instead, or plug a loudspeaker in.");
            }
        });
    }

    /** The sound as samples, 16 bit, little endian. */
    static byte[] samples(AlarmJudge.Alarm alarm) {
        return switch (alarm) {
            case LOCKOUT -> tones(0.22, 0.06, 660, 880, 660, 880, 660, 880);
            case FLUTTER -> tones(0.07, 0.03, 988, 784, 988, 784, 988, 784, 988, 784);
        };
    }

    private static byte[] tones(double seconds, double pause, double... hertz) {
        int tone = (int) (seconds * RATE);
        int silence = (int) (pause * RATE);
        byte[] out = new byte[2 * hertz.length * (tone + silence)];
        int at = 0;
        for (double pitch : hertz) {
            for (int i = 0; i < tone; i++) {
                double edge = Math.min(1, Math.min(i, tone - i) / (EDGE_SECONDS * RATE)); // no clicks
                int value = (int) (Short.MAX_VALUE * LOUDNESS * edge * Math.sin(2 * Math.PI * pitch * i / RATE));
                out[at++] = (byte) value;
                out[at++] = (byte) (value >> 8);
            }
            at += 2 * silence;
        }
        return out;
    }
}
