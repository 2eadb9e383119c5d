using System.Collections.Immutable;
using Portwitness.Captures;

namespace Portwitness.Synthesis;

/// <summary>A script that was read and walked through; with faults it writes nothing. captures/SYNTHESIS.md defines the language.</summary>
public sealed class SynthesisScript
{
    internal SynthesisScript()
    {
    }

    /// <summary>What is wrong with it, with line and column, in the order of the script; empty when a capture can be written.</summary>
    public ImmutableArray<CaptureFault> Faults { get; internal init; } = [];

    /// <summary>How many records the capture has, its header not counted; 0 with faults.</summary>
    public long Records { get; internal init; }

    /// <summary>How long the capture is, in microseconds, without jitter; 0 with faults.</summary>
    public long DurationUs { get; internal init; }

    /// <summary>What the capture's header states.</summary>
    internal CaptureHeader Header { get; init; } = new() { Format = "capture" };

    /// <summary>Specification Revision of all headers: 1 R2.0, 2 R3.x.</summary>
    internal int RevisionCode { get; init; } = 2;

    /// <summary>The cable.</summary>
    internal CableMarker Cable { get; init; } = CableMarker.None;

    /// <summary>Longest addition to a gap, in microseconds.</summary>
    internal int JitterUs { get; init; }

    /// <summary>What the additions are drawn from.</summary>
    internal ulong Seed { get; init; }

    /// <summary>The steps in order.</summary>
    internal ImmutableArray<Step> Steps { get; init; } = [];

    /// <summary>The same script with what walking through it showed.</summary>
    internal SynthesisScript Walked(CaptureFault? fault, long records, long durationUs) => new()
    {
        Header = Header,
        RevisionCode = RevisionCode,
        Cable = Cable,
        JitterUs = JitterUs,
        Seed = Seed,
        Steps = Steps,
        Faults = fault is null ? [] : [fault],
        Records = fault is null ? records : 0,
        DurationUs = fault is null ? durationUs : 0,
    };
}
