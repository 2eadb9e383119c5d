using System.Collections.Immutable;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures;

/// <summary>What the first line of a capture says about the bench. Whatever is not stated is null or empty.</summary>
public sealed record CaptureHeader
{
    /// <summary>The format that was read, by its name in captures/FORMAT.md.</summary>
    public required string Format { get; init; }

    /// <summary>The captured port.</summary>
    public string? Port { get; init; }

    /// <summary>Ports in use while this was recorded.</summary>
    public ImmutableArray<string> InUse { get; init; } = [];

    /// <summary>The same ports in the order in which they were attached.</summary>
    public ImmutableArray<string> AttachOrder { get; init; } = [];

    /// <summary>
    /// The ports whose records the input holds, when it holds those of several; only the records of <see cref="Port"/> are handed on.
    /// The ports in use are then those at time 0, and may be none. Empty for a recording of one port.
    /// </summary>
    public ImmutableArray<string> Ports { get; init; } = [];

    /// <summary>When the recording began.</summary>
    public DateTimeOffset? Started { get; init; }

    /// <summary>The product.</summary>
    public string? Product { get; init; }

    /// <summary>The sample of that product.</summary>
    public string? Sample { get; init; }

    /// <summary>The cable used.</summary>
    public CaptureCable? Cable { get; init; }

    /// <summary>Edition of the standard that the source follows, as stated by the operator, for example "R3.2".</summary>
    public string? Edition { get; init; }

    /// <summary>The format that a capture was converted from, for example "kernel-log"; null for a recording.</summary>
    public string? ConvertedFrom { get; init; }

    /// <summary>Which moment of a message its time is; not stated, it may be either.</summary>
    public MessageMoment TimeOf { get; init; }

    /// <summary>The instrument stamps times in steps of so many microseconds; null when not stated.</summary>
    public int? ResolutionUs { get; init; }

    /// <summary>Which messages the instrument records; empty when not stated. One that does not say so may miss a cable's.</summary>
    public ImmutableArray<SopKind> RecordsSop { get; init; } = [];

    /// <summary>Where VBUS is measured; not stated, a cable's drop may be in it.</summary>
    public MeasuringPoint MeasuredAt { get; init; }

    /// <summary>How far measurements may be off; null when not stated.</summary>
    public MeasuringAccuracy? Accuracy { get; init; }

    /// <summary>
    /// Currents of lists may be rounded to steps of so many milliamperes, as a display does that shows tenths of an ampere; null when
    /// they are exact.
    /// </summary>
    public int? CurrentRoundingMilliamperes { get; init; }

    /// <summary>Whether lists may have had more objects: they were typed or quoted, and nobody says that they are whole.</summary>
    public bool ListsMayBeCut { get; init; }

    /// <summary>Whether lists were recognised on a photo and nobody has compared them with it: nothing rests on them.</summary>
    public bool ListsUnchecked { get; init; }

    /// <summary>Members that version 1 does not define, as a JSON object; null when there were none.</summary>
    public string? Extra { get; init; }

    /// <summary>
    /// Where the records come from, however often they were converted: times of a log are not those of an instrument. The
    /// two forms of the open format, "capture" and "pcapng", carry the same and count as one.
    /// </summary>
    public string OriginName => ConvertedFrom ?? (Format == "pcapng" ? "capture" : Format);

    /// <summary>What <see cref="OriginName"/> names.</summary>
    public CaptureOrigin Origin => OriginName switch
    {
        "capture" => CaptureOrigin.OpenFormat,
        "kernel-log" => CaptureOrigin.KernelLog,
        "sysfs" => CaptureOrigin.Sysfs,
        "words" => CaptureOrigin.Words,
        "offers" => CaptureOrigin.Offers,
        "quoted" => CaptureOrigin.Quoted,
        _ => CaptureOrigin.Recording,
    };

    /// <summary>Whether messages were exchanged: lists that somebody looked up, copied or typed are none.</summary>
    public bool IsConversation => Origin is not (CaptureOrigin.Sysfs or CaptureOrigin.Words or CaptureOrigin.Offers or CaptureOrigin.Quoted);
}

/// <summary>The moment of a message that its time names.</summary>
public enum MessageMoment
{
    /// <summary>Not stated.</summary>
    Unknown,

    /// <summary>The first bit of its preamble.</summary>
    Start,

    /// <summary>The end of its EOP.</summary>
    End,
}

/// <summary>The cable, as stated by the operator.</summary>
/// <param name="Captive">Fixed to the product (true), detachable (false), or not stated.</param>
/// <param name="CurrentMilliamperes">3000 or 5000; null when not stated.</param>
/// <param name="Epr">Whether it is an EPR cable; null when not stated.</param>
public sealed record CaptureCable(bool? Captive, int? CurrentMilliamperes, bool? Epr);
