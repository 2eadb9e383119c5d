using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Profile;

/// <summary>One message of a capture as message rules see it.</summary>
public readonly ref struct ReceivedMessage
{
    /// <summary>The bytes, taken apart.</summary>
    public required MessageView View { get; init; }

    /// <summary>One bit for each bit of the header that was shown.</summary>
    public required ushort HeaderKnown { get; init; }

    /// <summary>The receiver vouched for the CRC, or it was recorded and is right.</summary>
    public required bool CrcIsRight { get; init; }
}
