namespace Portwitness.Cli.Photos;

/// <summary>Formats of photos by their first bytes; names of files say nothing.</summary>
internal static class PictureFormat
{
    /// <summary>How many bytes tell.</summary>
    public const int BytesToTell = 12;

    /// <summary>The name that "convert" takes for the format; null for what is no photo.</summary>
    public static string? Of(ReadOnlySpan<byte> start) =>
        start.StartsWith((ReadOnlySpan<byte>)[0x89, (byte)'P', (byte)'N', (byte)'G']) ? "png"
        : start.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? "jpeg"
        : start.StartsWith("RIFF"u8) && start.Length >= BytesToTell && start[8..].StartsWith("WEBP"u8) ? "webp"
        : start.StartsWith((ReadOnlySpan<byte>)[(byte)'I', (byte)'I', 42, 0]) || start.StartsWith((ReadOnlySpan<byte>)[(byte)'M', (byte)'M', 0, 42]) ? "tiff"
        : null;
}
