namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>A country code of two letters, ISO 3166 Alpha-2; any two bytes are kept.</summary>
/// <param name="First">The first letter's byte.</param>
/// <param name="Second">The second letter's byte.</param>
public readonly record struct CountryCode(byte First, byte Second)
{
    /// <summary>The two letters, for example "SE"; a byte that is no printable ASCII character is shown as "\x00".</summary>
    public override string ToString() => Letter(First) + Letter(Second);

    /// <summary>A byte as a character that can be printed.</summary>
    internal static string Letter(uint value) =>
        value is >= ' ' and <= '~' and not '\\' ? ((char)value).ToString() : $"\\x{value:X2}";
}
