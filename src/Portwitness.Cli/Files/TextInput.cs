using System.Text;

namespace Portwitness.Cli.Files;

/// <summary>Reads labels, product files and scripts: UTF-8, of limited length.</summary>
internal static class TextInput
{
    /// <summary>What the service takes, in bytes.</summary>
    private const int MostBytes = 1 << 20;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public static async Task<string> ReadAsync(InputFile input, CancellationToken cancellation)
    {
        await using Stream stream = input.Open();
        byte[] bytes = new byte[MostBytes + 1];
        int length = await stream.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, cancellation)
            .AsTask().WaitAsync(cancellation);
        if (length > MostBytes)
        {
            throw new CommandFailure($"{input.Name}: longer than {MostBytes} bytes; a label, product file or script is expected here.");
        }

        try
        {
            ReadOnlySpan<byte> text = bytes.AsSpan(0, length);
            return Strict.GetString(text.StartsWith(Encoding.UTF8.Preamble) ? text[Encoding.UTF8.Preamble.Length..] : text);
        }
        catch (DecoderFallbackException exception)
        {
            throw new CommandFailure($"{input.Name}: byte {exception.Index + 1} is not UTF-8; save the file as UTF-8.");
        }
    }
}
