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

    private static readonly JsonParser Parser = new(JsonParser.Settings.Default.WithIgnoreUnknownFields(true));

    /// <summary>An object each.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        foreach (ReportedProduct product in set.Products)
        {
            Write(writer, product.Read(), set.Indented);
        }
    }

    /// <summary>Reads a product's report that was written here.</summary>
    /// <exception cref="InvalidProtocolBufferException">It is no such report.</exception>
    public static ProductReport Read(TextReader reader) => Parser.Parse<ProductReport>(reader);

    /// <summary>One object and a line end; on one line unless <paramref name="indented"/>.</summary>
    public static void Write(TextWriter writer, IMessage message, bool indented)
    {
        (indented ? Indented : Compact).Format(message, writer);
        writer.WriteLine();
    }

    /// <summary>Begins the object of a capture whose messages come before it, so that none need be kept.</summary>
    /// <param name="writer">Where it is written.</param>
    /// <param name="indented">Whether to use several lines, if there are no messages.</param>
    public static StreamedCapture BeginCapture(TextWriter writer, bool indented) => new(writer, indented);

    /// <summary>A capture's object on one line, its messages first.</summary>
    public sealed class StreamedCapture
    {
        private readonly TextWriter _writer;
        private readonly bool _indented;

        internal StreamedCapture(TextWriter writer, bool indented)
        {
            _writer = writer;
            _indented = indented;
        }

        /// <summary>Whether a part of the object was written.</summary>
        public bool HasBegun { get; private set; }

        /// <summary>Adds messages.</summary>
        public void Add(DecodedMessages messages)
        {
            foreach (DecodedMessage message in messages.Messages)
            {
                _writer.Write(HasBegun ? ", " : "{ \"messages\": [ ");
                Compact.Format(message, _writer);
                HasBegun = true;
            }
        }

        /// <summary>Ends the object with everything else.</summary>
        /// <param name="capture">The capture; it holds no messages of its own.</param>
        public void End(DecodedCapture capture)
        {
            if (!HasBegun)
            {
                Write(_writer, capture, _indented);
                return;
            }

            // Quotes within values are escaped, so that this text can only be the member itself.
            string rest = Compact.Format(capture).Replace(NoMessages + ", ", "", StringComparison.Ordinal);
            _writer.Write(" ],");
            _writer.WriteLine(rest.AsSpan(1));
        }
    }
}
