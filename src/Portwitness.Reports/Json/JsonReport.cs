using Google.Protobuf;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Json;

/// <summary>Reports as canonical protobuf JSON: lists always show, an unknown value is absent.</summary>
public static class JsonReport
{
    private const string NoMessages = "\"messages\": [ ]";

    private static readonly JsonFormatter Compact = new(JsonFormatter.Settings.Default.WithFormatDefaultValues(true));

    private static readonly JsonFormatter Indented =
        new(JsonFormatter.Settings.Default.WithFormatDefaultValues(true).WithIndentation("  "));

    /// <summary>One object and a line end; on one line unless <paramref name="indented"/>.</summary>
    public static void Write(TextWriter writer, IMessage message, bool indented)
    {
        (indented ? Indented : Compact).Format(message, writer);
        writer.WriteLine();
    }

    /// <summary>Begins the object of a capture whose messages come before it, so that none need be kept.</summary>
    public static StreamedCapture BeginCapture(TextWriter writer) => new(writer);

    /// <summary>A capture's object on one line, its messages first.</summary>
    public sealed class StreamedCapture
    {
        private readonly TextWriter _writer;
        private bool _any;

        internal StreamedCapture(TextWriter writer) => _writer = writer;

        /// <summary>Adds messages.</summary>
        public void Add(DecodedMessages messages)
        {
            foreach (DecodedMessage message in messages.Messages)
            {
                _writer.Write(_any ? ", " : "{ \"messages\": [ ");
                Compact.Format(message, _writer);
                _any = true;
            }
        }

        /// <summary>Ends the object with everything else.</summary>
        /// <param name="capture">The capture; it holds no messages of its own.</param>
        public void End(DecodedCapture capture)
        {
            if (!_any)
            {
                Write(_writer, capture, indented: false);
                return;
            }

            // Quotes within values are escaped, so that this text can only be the member itself.
            string rest = Compact.Format(capture).Replace(NoMessages + ", ", "", StringComparison.Ordinal);
            _writer.Write(" ],");
            _writer.WriteLine(rest.AsSpan(1));
        }
    }
}
