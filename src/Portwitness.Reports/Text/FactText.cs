using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What port, partner and cable say of themselves, message by message.</summary>
internal static class FactText
{
    public static void Write(TextWriter writer, IReadOnlyCollection<PortFact> facts, TextStyle style)
    {
        foreach (IGrouping<(string, string, long), PortFact> message in
            facts.GroupBy(fact => (fact.Sender, fact.Message, fact.MessageIndex)))
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading(VisibleText.Of(
                $"The {message.Key.Item1} says in {message.Key.Item2} (message {message.Key.Item3})")));
            TextTable table = new();
            foreach (PortFact fact in message)
            {
                table.Add(fact.Name, fact.Value);
            }

            table.Write(writer, "  ");
        }
    }
}
