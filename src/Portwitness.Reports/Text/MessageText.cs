using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Messages of a capture, one line each, as they come.</summary>
public static class MessageText
{
    /// <summary>Says which capture the messages are of.</summary>
    public static void WriteHeading(TextWriter writer, string file, TextStyle style) =>
        writer.WriteLine(style.Heading("Messages of ") + VisibleText.Of(file));

    /// <summary>Writes some messages; columns are of fixed width, so that they align without looking ahead.</summary>
    public static void Write(TextWriter writer, DecodedMessages messages)
    {
        foreach (DecodedMessage message in messages.Messages)
        {
            string crc = message is { HasCrcOk: true, CrcOk: false } ? "  CRC wrong" : "";
            string line = string.Create(
                CultureInfo.InvariantCulture,
                $"{message.Index,7}  {Amounts.Seconds(message.TimeUs),14}  {message.Sop,-11}  {message.Sender,-7}  {message.Message,-28}  {message.Hex}{crc}  {message.Meaning}");
            writer.WriteLine(VisibleText.Of(line).TrimEnd());
        }
    }
}
