using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures;

/// <summary>One message of a capture, as a view: it lives as long as the call that hands it over.</summary>
public readonly ref struct MessageRecord
{
    /// <summary>Microseconds from the start of the capture; never smaller than that of the record before.</summary>
    public required long TimeUs { get; init; }

    /// <summary>Line of the input, counted from 1.</summary>
    public required long Line { get; init; }

    /// <summary>Whom the message is between.</summary>
    public required SopKind Sop { get; init; }

    /// <summary>Header and payload as on the wire, at least the two bytes of the header; no CRC.</summary>
    public required ReadOnlySpan<byte> Bytes { get; init; }

    /// <summary>One bit for each bit of <see cref="Bytes"/> that the instrument showed; empty when it showed all.</summary>
    public ReadOnlySpan<byte> Known { get; init; }

    /// <summary>The CRC on the wire, when the instrument showed it.</summary>
    public uint? Crc { get; init; }

    /// <summary>Whether the receiver found the CRC right; null when it does not say.</summary>
    public bool? CrcOk { get; init; }

    /// <summary>How well it was sent, when the line itself was recorded.</summary>
    public FrameQuality Quality { get; init; }

    /// <summary>Members that version 1 of the format does not define, as a JSON object in UTF-8; empty when there were none.</summary>
    public ReadOnlySpan<byte> Extra { get; init; }
}
