namespace Portwitness.PowerDelivery.Headers;

/// <summary>The three classes of message (R3.2v1.1, 6.2.1).</summary>
public enum MessageClass
{
    /// <summary>No data objects.</summary>
    Control,

    /// <summary>One to seven data objects.</summary>
    Data,

    /// <summary>An extended header and a data block.</summary>
    Extended,
}

/// <summary>Class and type code of a message; a reserved code is a value like any other.</summary>
/// <param name="Class">Control, data or extended.</param>
/// <param name="Code">Message Type, 0 to 31.</param>
public readonly partial record struct MessageKind(MessageClass Class, int Code)
{
    /// <summary>Whether R3.2v1.1 gives this code no meaning.</summary>
    public bool IsReserved => NameOrNull is null;

    /// <summary>The standard's name, for example "Source_Capabilities"; "reserved (data 13)" for a reserved code.</summary>
    public string Name => NameOrNull ?? $"reserved ({ClassName} {Code})";

    /// <summary>Whether it lists what a source offers (R3.2v1.1, 6.4.1, 6.5.15).</summary>
    public bool IsSourceList => this == SourceCapabilities || this == EPRSourceCapabilities;

    /// <summary>Whether it lists what a port offers or takes (R3.2v1.1, 6.4.1, 6.5.15, 6.5.16).</summary>
    public bool IsCapabilityList => IsSourceList || this == SinkCapabilities || this == EPRSinkCapabilities;

    private string ClassName => Class switch
    {
        MessageClass.Control => "control",
        MessageClass.Data => "data",
        _ => "extended",
    };

    private string? NameOrNull => (uint)Code > 31 ? null : NamesOf(Class)[Code];

    /// <summary>The kind that a header's fields say (R3.2v1.1, 6.2.1).</summary>
    public static MessageKind From(bool extended, int objectCount, int code) => new(
        extended ? MessageClass.Extended : objectCount == 0 ? MessageClass.Control : MessageClass.Data, code);

    /// <inheritdoc/>
    public override string ToString() => Name;
}
